//! Every page there is, to be looked at by the tests that look at all of them.

use super::page::Page;
use super::server::Server;

/// A page by its short name.
pub(crate) struct Sight<'s> {
    pub(crate) name: &'static str,
    server: &'s Server,
    kind: Kind,
}

enum Kind {
    At(&'static str),
    Document(&'static str),
    /// A page beside a document's, which its imprint leads to.
    Beside(&'static str, &'static str),
    Bar(&'static str),
}

/// The pages of a book with the demo in it, and those of an empty one.
pub(crate) fn all<'s>(demo: &'s Server, empty: &'s Server) -> Vec<Sight<'s>> {
    use Kind::{At, Bar, Beside, Document};
    let of = |server: &'s Server, name, kind| Sight { name, server, kind };
    vec![
        of(demo, "first page", At("/")),
        of(demo, "drink", Document("Second Pressing")),
        of(demo, "drink, stirred", Document("Weir")),
        of(demo, "drink, frozen", Document("Frost Line")),
        of(demo, "prep", Document("Quince peel shrub")),
        of(demo, "prep, of many steps", Document("Pomace soda")),
        of(demo, "ingredient", Document("quince")),
        of(
            demo,
            "ingredient, that pours",
            Document("strained-yoghurt whey"),
        ),
        of(demo, "house", Document("Sill & Ebb")),
        of(demo, "at the bar", Bar("Second Pressing")),
        of(demo, "history", Beside("Second Pressing", "history")),
        of(demo, "trials", Beside("Second Pressing", "trials")),
        of(demo, "drinks", At("/drinks")),
        of(demo, "found", At("/find?words=quince")),
        of(demo, "not found", At("/find?words=zzxqj")),
        of(demo, "nowhere", At("/drinks/nowhere")),
        of(demo, "new drink", At("/new")),
        of(demo, "new prep", At("/new?kind=prep")),
        of(demo, "new ingredient", At("/new?kind=ingredient")),
        of(demo, "the look", At("/look")),
        of(empty, "empty first page", At("/")),
    ]
}

impl Sight<'_> {
    pub(crate) fn open(&self, page: &Page) {
        match self.kind {
            Kind::At(path) => page.go(&self.server.at(path)),
            Kind::Document(name) => document(self.server, page, name),
            Kind::Beside(name, word) => {
                document(self.server, page, name);
                let word = super::page::quoted(word);
                let link: String = page.eval(&format!(
                    "[...document.querySelectorAll('.imprint a')].find((one) => one.innerText === {word}).href"
                ));
                page.go(&link);
            }
            Kind::Bar(name) => {
                document(self.server, page, name);
                let bar: String = page.eval("document.querySelector('.masthead .tonight').href");
                page.go(&bar);
            }
        }
    }
}

/// Goes to a document, by the search.
pub(crate) fn document(server: &Server, page: &Page, name: &str) {
    page.go(&server.at("/"));
    let words = super::page::quoted(name);
    let link: String = page.eval(&format!(
        "fetch('/find.json?role=page&words=' + encodeURIComponent({words})).then((answer) => answer.json()) \
         .then((found) => found.find((one) => one.name === {words}).link)"
    ));
    page.go(&server.at(&link));
}

/// Opens every fold of a page.
pub(crate) fn unfold(page: &Page) {
    page.eval::<bool>(
        "document.querySelectorAll('details').forEach((one) => { one.open = true; }) ?? true",
    );
}
