// What is wrong with a page as it is seen now: a list of sentences.
(() => {
  const found = [];
  const root = document.documentElement;
  const name = (one) => `<${one.tagName.toLowerCase()} class="${one.getAttribute("class") ?? ""}"> \`${(one.getAttribute("aria-label") ?? one.textContent ?? "").replace(/\s+/g, " ").trim().slice(0, 40)}\``;
  const seen = (one) => one.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) && !one.closest(".unseen,.skip");

  if (root.scrollWidth > innerWidth) {
    const wide = [...document.querySelectorAll("body *")].filter((one) => seen(one) && one.getBoundingClientRect().right > innerWidth + 1);
    found.push(`scrolls sideways by ${root.scrollWidth - innerWidth} px: ${wide.slice(-2).map(name).join(", ")}`);
  }

  // What can be pressed is 44 by 44 or more, or has a label or a row that is.
  for (const one of document.querySelectorAll("a[href],button,input:not([type=hidden]),select,summary,textarea")) {
    if (!seen(one)) continue;
    const box = (one.closest("label") ?? one).getBoundingClientRect();
    const own = one.getBoundingClientRect();
    const width = Math.max(box.width, own.width), height = Math.max(box.height, own.height);
    if (width >= 43.9 && height >= 43.9) continue;
    found.push(`${Math.round(width)} × ${Math.round(height)} px is small for a finger: ${name(one)}`);
  }

  // No words are set smaller than 15 px, those of drawings as they come out included.
  const small = new Map();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const one = node.parentElement;
    if (!node.nodeValue.trim() || one.closest("script,style,title,desc") || !seen(one)) continue;
    const svg = one.closest("svg");
    const scale = svg ? one.getScreenCTM().a : 1;
    const size = parseFloat(getComputedStyle(one).fontSize) * scale;
    if (size < 14.9) small.set(name(one), size.toFixed(1));
  }
  for (const [what, size] of small) found.push(`${size} px is small to read: ${what}`);

  // No label of a drawing lies over another.
  for (const svg of document.querySelectorAll("svg")) {
    if (!seen(svg)) continue;
    const texts = [...svg.querySelectorAll("text")].filter((one) => one.textContent.trim() && seen(one)).map((one) => {
      const box = one.getBoundingClientRect();
      const size = parseFloat(getComputedStyle(one).fontSize) * one.getScreenCTM().a;
      // A box has room for accents and tails that few letters fill: the letters are about the middle 0.7 em.
      const middle = (box.top + box.bottom) / 2;
      return { one, left: box.left, right: box.right, top: middle - 0.35 * size, bottom: middle + 0.35 * size };
    });
    texts.forEach((a, index) => {
      for (const b of texts.slice(index + 1)) {
        const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        if (across > 1 && down > 1) found.push(`in ${svg.getAttribute("class")} \`${a.one.textContent}\` and \`${b.one.textContent}\` overlap by ${across.toFixed(0)} × ${down.toFixed(0)} px`);
      }
    });
  }
  return found;
})()
