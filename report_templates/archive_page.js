"use strict";
/* The register of an archive: search, filters, sorting, one opening's details. Plain script, no library, no network.

   The data (script#data) holds every text once, in `words`; openings name texts by their number. So the file
   stays small, each text is prepared for searching once, and a search looks at 20,000 texts, not at 5,000 pages.
   All that comes from records is set as text (textContent), never as markup. */
(() => {
  const $ = (id) => document.getElementById(id);
  const data = JSON.parse($("data").textContent);
  const { words, say, sites, outcomes } = data;
  const ROWS = 50; // rows added at a time: a long table is slow to lay out and nobody reads it whole
  const SORTS = ["mark", "site", "place", "outcome", "finished", "later"];
  const FILTERS = ["outcome", "site", "building", "batch", "fitter", "year"];
  const FORM = $("question");

  // ---- text: lower case, without accents; German ue for ü is found too, because both are written on site
  const plain = (text) => text.toLowerCase().replace(/ß/g, "ss").normalize("NFD").replace(/\p{M}/gu, "");
  const spelt = (text) => text.toLowerCase().replace(/ä/g, "ae").replace(/ö/g, "oe").replace(/ü/g, "ue");
  const searched = (text) => {
    const [short, long] = [plain(text), plain(spelt(text.normalize("NFC")))];
    return short === long ? ` ${short} ` : ` ${short}  ${long} `;
  };
  const filled = (text, facts) => text.replace(/\{(\w+)\}/g, (_, name) => facts[name]);
  const found = (some) => (some === 1 ? say.one : filled(say.found, { found: some, all: openings.length }));

  const KEYS = [
    "site", "mark", "place", "building", "floor", "outcome", "finished", "later", "year", "fitters", "batches", "pages",
    "parts",
  ];
  const openings = data.openings.map((row, at) => {
    const one = Object.fromEntries(KEYS.map((key, column) => [key, row[column]]));
    const site = sites[one.site];
    const outcome = outcomes[one.outcome].word;
    const texts = [one.mark, one.place, site.name_word, site.id_word, outcome, one.finished, one.later];
    return { ...one, at, key: `${site.id}/${words[one.mark]}`, texts: [...new Set(texts.concat(one.parts.flat(3)))] };
  });
  const normal = words.map(searched);
  const buildings = new Map(); // from a name as it is typed to the numbers of the names that records use
  for (const { building: at } of openings) {
    const name = plain(words[at]);
    if (at) buildings.set(name, (buildings.get(name) ?? new Set()).add(at));
  }
  const floors = new Set(openings.map((one) => words[one.floor]));
  const [isBuilding, isFloor, isBelow] = ["building", "floor", "below"].map((kind) => new Set(data.vocabulary[kind]));
  const [ranked, alone] = ["floors", "alone"].map((kind) => new Map(Object.entries(data.vocabulary[kind])));

  // ---- the question: words that must all occur, and places such as "block B second floor", which are read as one
  const trimmed = (word) => word.replace(/^[.\-/]+|[.\-/]+$/g, "");
  const tokens = (text) => plain(text).split(/[^\p{L}\p{N}./-]+/u).map(trimmed).filter(Boolean);
  function floorBeside(one, word) { // "second" beside "floor", "2" beside "UG"; null where the two name no floor
    const stated = floors.has(one) || /^\d+$/.test(one) ? one.replace(/^0+(?=.)/, "") : null;
    const level = ranked.get(one) ?? stated;
    if (isFloor.has(word)) return level;
    return isBelow.has(word) && /^[1-9]/.test(level ?? "") ? `-${level}` : null;
  }

  function understood(text) {
    const asked = tokens(text), needs = [], unfinished = /\S$/.test(text);
    const onFloor = (floor) => (one) => words[one.floor] === floor;
    for (let at = 0; at < asked.length; at++) {
      const [one, next] = [asked[at], asked[at + 1] ?? ""];
      const floor = floorBeside(one, next) ?? floorBeside(next, one);
      if (isBuilding.has(one) && buildings.has(next)) {
        const same = buildings.get(next);
        needs.push((opening) => same.has(opening.building));
        at++;
      } else if (floor !== null) {
        needs.push(onFloor(floor));
        at++;
      } else if (alone.has(one) || ranked.has(one)) { // "EG"; "second" before "floor" is typed
        const [named, text] = [onFloor(alone.get(one) ?? ranked.get(one)), occurs(one, true)];
        needs.push((opening) => named(opening) || text(opening));
      } else {
        needs.push(occurs(one, unfinished && at === asked.length - 1));
      }
    }
    return needs;
  }

  /* One or two letters inside other words say nothing, so they count as a word of their own; the last word
     is still being typed and counts as the beginning of one. */
  function occurs(term, unfinished) {
    const part = term.length > 2 ? term : unfinished ? ` ${term}` : null;
    const whole = new RegExp(`[^\\p{L}\\p{N}]${term.replace(/[.]/g, "\\.")}[^\\p{L}\\p{N}]`, "u");
    const hit = Uint8Array.from(normal, (text) => (part === null ? whole.test(text) : text.includes(part)));
    return (opening) => opening.texts.some((text) => hit[text]);
  }

  const KEPT = {
    outcome: (o) => [o.outcome],
    site: (o) => [sites[o.site].id],
    building: (o) => [words[o.building]],
    batch: (o) => o.batches.map(([product, batch]) => `${words[product]} / ${words[batch]}`),
    fitter: (o) => o.fitters.map((name) => words[name]),
    year: (o) => [o.year],
  };

  // ---- sorting: texts are ranked once per language, so that a sort compares numbers
  const collator = new Intl.Collator(data.language, { numeric: true });
  const ranks = {};
  const VALUE = {
    mark: (o) => words[o.mark],
    site: (o) => sites[o.site].name,
    place: (o) => words[o.place],
    outcome: (o) => outcomes[o.outcome].rank,
    finished: (o) => data.days[o.finished] ?? "",
    later: (o) => words[o.later],
  };
  function rank(column) {
    if (!ranks[column]) {
      const values = openings.map(VALUE[column]);
      const inOrder = [...new Set(values)].sort((a, b) => (a === "") - (b === "") || collator.compare(a, b));
      const order = new Map(inOrder.map((value, at) => [value, at]));
      ranks[column] = values.map((value) => order.get(value));
    }
    return ranks[column];
  }

  // ---- what is asked, in the address as well, so that a link holds the question
  const asked = { sort: "site", down: false };
  let shown = [], drawn = 0;

  function read() {
    const stated = new URLSearchParams(location.hash.slice(1));
    FORM.elements.q.value = stated.get("q") ?? "";
    for (const name of FILTERS) FORM.elements[name].value = stated.get(name) ?? "";
    const sort = stated.get("sort") ?? "site";
    asked.down = sort.startsWith("-");
    asked.sort = SORTS.includes(sort.replace("-", "")) ? sort.replace("-", "") : "site";
    search();
    const named = openings.find((one) => one.key === stated.get("opening"));
    if (named) open(named);
    else if ($("details").open) $("details").close();
  }

  function write(opening) {
    const stated = new URLSearchParams();
    for (const name of ["q", ...FILTERS]) if (FORM.elements[name].value) stated.set(name, FORM.elements[name].value);
    const sort = (asked.down ? "-" : "") + asked.sort;
    if (sort !== "site") stated.set("sort", sort);
    if (opening) stated.set("opening", opening.key);
    // replaceState, because every letter typed must not become a step of the browser's history
    history.replaceState(null, "", `#${stated}`);
  }

  function search() {
    const needs = understood(FORM.elements.q.value);
    for (const name of FILTERS) {
      const value = FORM.elements[name].value;
      if (value) needs.push((one) => KEPT[name](one).includes(value));
    }
    const [first, mark, site] = [rank(asked.sort), rank("mark"), rank("site")];
    const sign = asked.down ? -1 : 1;
    shown = openings.filter((one) => needs.every((need) => need(one)));
    shown.sort((a, b) => sign * (first[a.at] - first[b.at]) || site[a.at] - site[b.at] || mark[a.at] - mark[b.at]);
    $("found").textContent = shown.length ? found(shown.length) : say.none;
    $("asked").textContent = FILTERS.filter((name) => FORM.elements[name].value)
      .map((name) => `${FORM.elements[name].labels[0].textContent}: ${FORM.elements[name].value}`)
      .concat(FORM.elements.q.value || []).join("; "); // on paper the form is not there
    for (const head of document.querySelectorAll("th[data-sort]")) {
      const mine = head.dataset.sort === asked.sort;
      if (mine) head.setAttribute("aria-sort", asked.down ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
    $("rows").replaceChildren();
    drawn = 0;
    draw(ROWS);
  }

  function draw(more) {
    $("rows").append(...shown.slice(drawn, drawn + more).map(row));
    drawn = Math.min(shown.length, drawn + more);
    $("more").hidden = drawn === shown.length;
    const rest = shown.length - drawn;
    $("more").textContent = filled(say.more, { more: Math.min(ROWS, rest), rest });
    $("table").hidden = !shown.length;
  }

  // ---- elements
  function made(tag, text, ...inside) {
    const element = document.createElement(tag);
    if (text) { element.dir = "auto"; element.textContent = text; }
    element.append(...inside);
    return element;
  }

  function mark(outcome) {
    const drawing = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    drawing.setAttribute("class", "mark");
    drawing.setAttribute("aria-hidden", "true"); // the word beside it says the same
    drawing.append(document.createElementNS("http://www.w3.org/2000/svg", "use"));
    drawing.firstChild.setAttribute("href", `#mark-${outcome}`);
    const said = made("span", "", drawing, made("span", outcomes[outcome].said));
    said.className = `outcome ${outcome}`;
    return said;
  }

  function row(one) {
    const button = made("button", words[one.mark]);
    button.type = "button";
    button.dataset.at = one.at;
    button.setAttribute("aria-haspopup", "dialog");
    const head = made("th", "", button);
    head.scope = "row";
    const finished = made("td", words[one.finished]);
    const later = made("td", words[one.later]);
    finished.className = later.className = "rest";
    const [site, place] = [made("td", sites[one.site].name), made("td", words[one.place])];
    return made("tr", "", head, site, place, made("td", "", mark(one.outcome)), finished, later);
  }

  // ---- one opening's details, in a dialog: the browser keeps the focus inside, closes on Escape and gives it back
  function open(one) {
    const site = sites[one.site];
    $("details-title").textContent = filled(say.opening, { mark: words[one.mark] });
    $("details-body").replaceChildren(
      made("p", [site.name, words[one.place]].filter(Boolean).join(", ")),
      made("p", "", mark(one.outcome)),
      ...one.parts.map(part),
      filings(one, site),
    );
    if (!$("details").open) $("details").showModal();
    $("details").scrollTop = 0;
    write(one);
  }

  function part([heading, lines]) {
    const head = made("h3", words[heading]);
    if (lines.every((cells) => cells.length === 1)) {
      return made("section", "", head, made("ul", "", ...lines.map(([cell]) => made("li", words[cell]))));
    }
    const rows = lines.map(([name, ...cells]) => {
      const first = made("th", words[name]);
      first.scope = "row";
      return made("tr", "", first, ...cells.map((cell) => made("td", words[cell])));
    });
    return made("section", "", head, made("table", "", made("tbody", "", ...rows)));
  }

  function filings(one, site) {
    const items = site.versions.map((version) => {
      const page = one.pages[version.number];
      const packs = version.packs.filter(([name]) => !page || name === page[0]).flatMap(([name, href]) => {
        const said = page ? `${name}, ${filled(say.page, { page: page[1] })}` : name;
        if (!href) return [" ", made("span", said)];
        const link = made("a", said);
        link.href = page ? `${href}#page=${page[1]}` : href;
        return [" ", link];
      });
      return made("li", "", made("span", version.said), ...packs, made("br"), made("code", version.head));
    });
    return made("section", "", made("h3", say.versions), made("ul", "", ...items));
  }

  // ---- what the person does
  FORM.addEventListener("input", () => { search(); write(); });
  FORM.addEventListener("submit", (event) => event.preventDefault());
  FORM.addEventListener("reset", () => setTimeout(() => { search(); write(); FORM.elements.q.focus(); }));
  $("table").addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    if (button.dataset.at) return open(openings[button.dataset.at]);
    const column = button.closest("th").dataset.sort;
    asked.down = asked.sort === column && !asked.down;
    asked.sort = column;
    search();
    write();
  });
  $("more").addEventListener("click", () => {
    const first = drawn;
    draw(ROWS);
    $("rows").children[first].querySelector("button").focus(); // go on reading where the new rows begin
  });
  $("close").addEventListener("click", () => $("details").close());
  $("details").addEventListener("close", () => write());
  addEventListener("hashchange", () => {
    if (location.hash === "" || location.hash.includes("=")) read();
    else write(); // the link to the search: a place in the page and no question
  });
  let onScreen = 0;
  addEventListener("beforeprint", () => { // paper has no button for more
    onScreen = drawn;
    draw(Infinity);
  });
  addEventListener("afterprint", () => {
    for (const late of [...$("rows").children].slice(onScreen)) late.remove();
    drawn = onScreen;
    draw(0);
  });

  $("register").hidden = false;
  read();
})();
