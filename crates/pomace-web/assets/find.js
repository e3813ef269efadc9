// Fields that answer while one types: names of the book, and of the larder.

let count = 0;

export function watchFields(root) {
  for (const field of root.querySelectorAll("input[data-find]")) {
    if (!field.dataset.watched) watch(field);
  }
}

// What nobody knows may go in all the same: whether it is made here or bought is asked then.
function withOwn(found, name) {
  const isKnown = found.some((one) => one.name.toLowerCase() === name.toLowerCase());
  return isKnown ? found : [...found, { name, kind: "not in the book yet" }];
}

function watch(field) {
  field.dataset.watched = "yes";
  const list = document.createElement("ul");
  list.className = "found offers";
  list.id = `offers-${++count}`;
  list.setAttribute("role", "listbox");
  list.hidden = true;
  // A place of no height, over what follows: nothing moves under a finger.
  const place = document.createElement("div");
  place.className = "offering";
  place.dataset.own = "";
  place.append(list);
  field.closest("label").after(place);
  field.setAttribute("role", "combobox");
  field.setAttribute("aria-autocomplete", "list");
  field.setAttribute("aria-expanded", "false");
  field.setAttribute("aria-controls", list.id);
  const isPage = field.dataset.find === "page";
  let asked = 0, timer = 0, chosen = -1, found = [];

  const close = () => {
    list.hidden = true;
    chosen = -1;
    field.setAttribute("aria-expanded", "false");
    field.removeAttribute("aria-activedescendant");
  };
  const take = (one) => {
    if (isPage && one.link) {
      location.href = one.link;
      return;
    }
    field.value = one.name;
    close();
    field.dispatchEvent(new Event("input", { bubbles: true }));
    // What was chosen is not looked for again.
    clearTimeout(timer);
    asked++;
    field.dispatchEvent(new Event("change", { bubbles: true }));
    field.form.querySelector("input[name=amount]")?.focus();
  };
  const mark = () => {
    [...list.children].forEach((item, index) => {
      item.setAttribute("aria-selected", String(index === chosen));
      item.firstChild.setAttribute("aria-selected", String(index === chosen));
    });
    const item = list.children[chosen];
    if (item) field.setAttribute("aria-activedescendant", item.id);
    else field.removeAttribute("aria-activedescendant");
  };
  const show = () => {
    list.replaceChildren(...found.map((one, index) => {
      const item = document.createElement("li");
      item.id = `${list.id}-${index}`;
      item.setAttribute("role", "option");
      const link = document.createElement("a");
      if (one.link && isPage) link.href = one.link;
      const name = document.createElement("span");
      name.textContent = one.name;
      const kind = document.createElement("span");
      kind.className = "kind";
      kind.textContent = one.kind;
      link.append(name, kind);
      item.append(link);
      // Before the field loses its focus.
      item.addEventListener("pointerdown", (event) => {
        event.preventDefault();
        take(one);
      });
      return item;
    }));
    list.hidden = found.length === 0;
    field.setAttribute("aria-expanded", String(!list.hidden));
    chosen = -1;
    mark();
  };
  const ask = async () => {
    const words = field.value.trim();
    const mine = ++asked;
    if (words.length < 2) return close();
    try {
      const answer = await fetch(`/find.json?role=${field.dataset.find}&words=${encodeURIComponent(words)}`);
      const json = await answer.json();
      if (mine !== asked || document.activeElement !== field) return;
      found = isPage ? json : withOwn(json.slice(0, 6), words);
      show();
    } catch {
      close();
    }
  };
  field.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(ask, 90);
  });
  field.addEventListener("keydown", (event) => {
    // Nor may an answer that is still under way open it again.
    if (event.key === "Escape") {
      clearTimeout(timer);
      asked++;
    }
    if (list.hidden) return;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      event.preventDefault();
      const step = event.key === "ArrowDown" ? 1 : -1;
      chosen = (chosen + step + found.length + (chosen < 0 && step < 0 ? 1 : 0)) % found.length;
      mark();
    } else if (event.key === "Enter" && chosen >= 0) {
      event.preventDefault();
      take(found[chosen]);
    } else if (event.key === "Escape") {
      // A search field would empty itself.
      event.preventDefault();
      close();
    }
  });
  field.addEventListener("blur", close);
}
