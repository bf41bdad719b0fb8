// The sheet as an app: what is tapped, what is kept on the phone, what is carried back. Text of the
// record and of whoever taps goes into the page as text only.

(() => {
  const sheet = readSheet(JSON.parse(document.getElementById("sheet-data").textContent));
  const { data } = sheet;
  /** @type {(id: string) => any} */
  const $ = (id) => document.getElementById(id);

  /** An element with attributes; children are elements or text. */
  const make = (tag, attributes = {}, ...children) => {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    element.append(...children);
    return element;
  };

  const paths = new Map(data.marks);
  /** The mark of a state, told apart without colour. */
  const mark = (state) => {
    const [svg, path] = ["svg", "path"].map((tag) => document.createElementNS("http://www.w3.org/2000/svg", tag));
    svg.setAttribute("viewBox", "-1 -1 2 2");
    svg.setAttribute("class", `mark ${state.replace(" ", "-")}`);
    svg.setAttribute("aria-hidden", "true");
    path.setAttribute("d", paths.get(state));
    svg.append(path);
    return svg;
  };

  // What is kept on the phone, under the boat and the sheet, so that sheets do not mix.

  const KEY = "refasten sheet " + JSON.stringify([data.boat, data.after, data.made, data.place]);
  const UNKEPT = "This phone keeps nothing for this page. Carry back before you close it, or all is lost.";
  let stored = { by: "", entries: [] };
  let keeps = true;

  /** Reads what is kept, as another page on the same sheet may have left it. */
  const load = () => {
    if (!keeps) return;
    try {
      const kept = JSON.parse(localStorage.getItem(KEY) ?? "null");
      if (kept) stored = kept;
    } catch {
      warn();
    }
  };
  const save = () => {
    if (!keeps) return;
    try {
      localStorage.setItem(KEY, JSON.stringify(stored));
    } catch {
      warn();
    }
  };
  const warn = () => {
    keeps = false;
    $("warning").textContent = UNKEPT;
    $("warning").hidden = false;
  };
  const test = () => {
    try {
      localStorage.setItem(`${KEY} test`, "1");
      localStorage.removeItem(`${KEY} test`);
    } catch {
      warn();
    }
  };

  const waiting = () => stored.entries.filter((entry) => !entry.carried);
  /** Changes the entries if the story stays possible; else says why not. */
  const change = (entries) => {
    const played = play(sheet, entries);
    if (played.refused) return played;
    stored.entries = entries;
    save();
    render();
    return null;
  };

  // The page behind.

  let holes = new Map();
  const holesAt = (name) => holes.get(name) ?? sheet.crossings.get(name).holes;
  const describe = (entry) => [
    entry.date, entry.did, placeOf(sheet, entry), entry.found, entry.diameter,
    entry.holes.length === 0 ? "new hole" : "", entry.driven?.told, entry.by, entry.note,
  ].filter(Boolean).join(", ");

  const render = () => {
    const played = play(sheet, stored.entries);
    holes = played.holes;
    if (played.refused) {
      $("warning").textContent = `${describe(played.entry)}: ${played.refused}. Take it back, or mend it after carrying back.`;
      $("warning").hidden = false;
    } else if (keeps) {
      $("warning").hidden = true;
    }
    const count = waiting().length;
    const carried = stored.entries.length - count;
    $("waiting").textContent = count === 0 ? "Nothing waits" : count === 1 ? "1 waits to be carried back" : `${count} wait to be carried back`;
    $("undo").disabled = count === 0;
    $("to-do").textContent = `${count} to carry back, ${carried} carried back before.`;
    $("clear").disabled = carried === 0;
    $("csv").value = text = csv(sheet, toCarry());
    $("download").disabled = $("copy").disabled = toCarry().length === 0;
    $("entries").replaceChildren(...stored.entries.toReversed().map((entry) => {
      const told = make("span", {}, describe(entry));
      if (entry.carried) return make("li", { class: "carried" }, told, ` (carried back ${entry.carried})`);
      const back = make("button", { type: "button", "aria-label": `Take back ${describe(entry)}` }, "Take back");
      back.addEventListener("click", () => takeBack(entry.id));
      return make("li", {}, told, back);
    }));
    showCrossings();
    if ($("panel").open) showPanel();
  };

  const showCrossings = () => {
    const { names } = sheet.strakes[$("strake").selectedIndex] ?? { names: [] };
    $("crossings").replaceChildren(...names.map((name) => {
      const states = holesAt(name).map((hole) => stateOf(sheet, hole));
      const label = `${name}: ${states.join(", ") || "nothing recorded"}`;
      const { member, end } = sheet.crossings.get(name);
      const button = make("button", { type: "button", "aria-label": label },
        member.slice(member.indexOf(" ") + 1) + end, make("span", { class: "marks" }, ...states.map(mark)));
      button.addEventListener("click", () => openPanel(name));
      return button;
    }));
  };

  const takeBack = (id) => {
    load();
    const refused = change(stored.entries.filter((entry) => entry.id !== id || entry.carried));
    if (refused) tell(`not taken back: ${describe(refused.entry)} rests on it`);
  };
  const tell = (text) => {
    if ($("panel").open) $("says").textContent = text;
    else $("waiting").textContent = text;
  };

  // The panel of one crossing.

  let at = "";
  /** The holes that are tapped; "new" is one to be bored. @type {Set<number|"new">} */
  let tapped = new Set();
  /** Those that were tapped for the last entry, for the next crossing. */
  let lately = tapped;
  let did = "";

  const openPanel = (name) => {
    at = name;
    const count = holesAt(name).length;
    // From crossing to crossing the same holes are taken; else the only one there is.
    const same = $("panel").open ? (tapped.size > 0 ? tapped : lately) : [];
    tapped = new Set([...same].filter((hole) => hole <= count));
    if (count === 1) tapped = new Set([1]);
    $("says").textContent = "";
    if (!$("panel").open) {
      for (const id of ["found", "sample", "diameter", "note"]) $(id).value = "";
      $("panel").showModal();
    }
    showPanel();
    $("at").focus();
  };

  const toggle = (label, on, act, ...more) => {
    const button = make("button", { type: "button", "aria-pressed": String(on) }, label, ...more);
    button.addEventListener("click", () => { act(); showPanel(button); });
    return button;
  };

  /** Shows the panel anew; the button that was tapped keeps the focus. */
  const showPanel = (from) => {
    const crossing = sheet.crossings.get(at);
    const focus = from && [from.parentElement.id, [...from.parentElement.children].indexOf(from)];
    const there = holesAt(at);
    $("at").textContent = at;
    const kinds = [...new Set(there.map((hole) => hole.kind).filter((kind) => kind !== null))];
    $("there").textContent = [crossing.zone, crossing.off ? "plank off" : "", ...kinds.map((kind) => {
      const { letter, set, is } = data.fastenings[kind];
      return `${letter} ${set}: ${is}`;
    })].filter(Boolean).join(". ");
    const all = there.map((_, i) => i + 1);
    const isAll = all.length > 0 && all.every((n) => tapped.has(n));
    const buttons = there.map((hole, i) => {
      const state = stateOf(sheet, hole);
      const { bare, frame } = data.contents[hole.content];
      const known = [state, bare ? "bare" : "", frame === "doweled" ? "doweled" : "",
        hole.new ?? data.fastenings[hole.kind]?.letter, ...hole.found.map((f) => data.found[f].word)];
      const small = make("small", {}, known.filter(Boolean).join(", "));
      return toggle(`${i + 1} `, tapped.has(i + 1), () => {
        tapped.delete("new");
        if (!tapped.delete(i + 1)) tapped.add(i + 1);
      }, mark(state), small);
    });
    if (all.length > 1) buttons.push(toggle("all", isAll, () => { tapped = new Set(isAll ? [] : all); }));
    buttons.push(toggle("new hole", tapped.has("new"), () => {
      tapped = new Set(tapped.has("new") ? [] : ["new"]);
      if (tapped.has("new")) did = "driven";
    }));
    $("holes").replaceChildren(...buttons);
    $("deeds").replaceChildren(...data.deeds.map((deed) => {
      const button = toggle(deed.did, did === deed.did, () => { did = deed.did; });
      // What cannot be is dimmed; tapped all the same, it says why.
      const no = chosen() && apply(sheet, crossing, there, { ...draft(), did: deed.did, diameter: "" }).refused;
      if (no) button.setAttribute("class", "no");
      return button;
    }));
    const deed = data.deeds.find((deed) => deed.did === did);
    for (const part of $("panel").querySelectorAll("[data-key]")) part.hidden = !deed?.keys.includes(part.dataset.key);
    fillDriven();
    $("typed").hidden = $("driven").value !== "typed";
    const no = deed && chosen() && apply(sheet, crossing, there, draft()).refused;
    if (from) $("says").textContent = no || "";
    if (focus) $(focus[0]).children[focus[1]]?.focus();
  };

  const chosen = () => tapped.size > 0;

  /** What is to be driven; `null` where nothing is said of it. */
  const driving = () => {
    if ($("driven").value !== "typed") return offered()[Number($("driven").value)] ?? null;
    const [set, kind, metal, size, bung] = ["set", "kind", "metal", "size", "bung"].map((id) => clean($(id).value));
    const covered = !["", "none", "unknown"].includes(bung.toLowerCase());
    const told = `${set ? `${set}: ` : ""}${metal} ${kind} ${size}, ${bung ? `bung ${bung}` : "no bung"}`;
    return { set, kind, metal, size, bung, covered, plan: null, at: null, told };
  };
  /** What is planned here, what was driven last, then what was typed on this phone. */
  const offered = () => {
    const typed = stored.entries.map((entry) => entry.driven).filter(Boolean);
    const all = [...data.offered, ...typed];
    const here = all.filter((one) => !one.at || one.at.includes(at));
    return here.filter((one, i) => here.findIndex((other) => other.told === one.told) === i);
  };

  /** The entry as it is tapped so far. */
  const draft = () => {
    const keys = data.deeds.find((deed) => deed.did === did)?.keys ?? [];
    const value = (key) => (keys.includes(key) ? clean($(key).value) : "");
    return {
      id: `${Date.now()} ${Math.random()}`, date: $("date").value, did, at,
      holes: [...tapped].filter((hole) => hole !== "new").sort((a, b) => a - b),
      found: value("found"), stub: value("stub"), sample: value("sample"), diameter: value("diameter"),
      driven: did === "driven" ? driving() ?? { covered: true, told: "" } : null,
      by: clean($("by").value), note: clean($("note").value), carried: "",
    };
  };

  /** What is missing before it can be put down. */
  const missing = (entry) => {
    if (!chosen()) return "tap a hole first";
    if (!did) return "tap what was done";
    if (!/^\d{4}-\d\d-\d\d$/.test(entry.date)) return "the day of the work is missing";
    if (entry.date > today()) return `${entry.date} has not come yet`;
    const thick = millimetres(entry.diameter);
    if (did === "measured" && !(thick > 0 && thick < 100)) return "a diameter with its unit: 0.19in, 3/16in, 4.8mm";
    if (did !== "driven") return "";
    if (!driving()) return "say what goes in";
    const { kind, metal, size } = entry.driven;
    if (!kind || !size || (!metal && kind !== "trunnel")) return "kind, metal and size of what goes in; unknown will do";
    return "";
  };

  const put = () => {
    load();
    const entry = draft();
    const no = missing(entry);
    if (no) return tell(no);
    const refused = change([...stored.entries, entry]);
    if (!refused) {
      const what = [`${entry.did} ${placeOf(sheet, entry)}`, entry.found, entry.diameter].filter(Boolean).join(", ");
      for (const id of ["diameter", "note"]) $(id).value = "";
        lately = tapped;
      tapped = new Set();
      showPanel();
      return tell(`put down: ${what}. ${$("waiting").textContent}`);
    }
    tell(refused.entry === entry ? refused.refused : `${describe(refused.entry)} would no longer be possible: ${refused.refused}`);
  };

  const step = (by) => {
    const { names } = sheet.strakes[$("strake").selectedIndex];
    const next = names[names.indexOf(at) + by];
    if (next) openPanel(next);
    else tell("the strake ends here");
  };

  // Carrying back.

  /** What is carried back; a text area would end its lines otherwise. */
  let text = "";
  const toCarry = () => ($("again").checked ? stored.entries : waiting());
  const carried = (how) => {
    const ids = new Set(toCarry().map((entry) => entry.id));
    load();
    for (const entry of stored.entries) if (ids.has(entry.id)) entry.carried ||= today();
    save();
    const shown = $("csv").value;
    render();
    $("csv").value = shown;
    $("to-do").textContent = `${ids.size} ${how}; they stay on this phone until you clear them.`;
  };
  const download = () => {
    const name = `${data.sheet} ${data.place}`.replaceAll(/[^\p{L}\p{N}+]+/gu, "-");
    const url = URL.createObjectURL(new Blob(["\ufeff", text], { type: "text/csv;charset=utf-8" }));
    make("a", { href: url, download: `${name.slice(0, 100)}.csv` }).click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
    carried("handed to the browser to download");
  };
  const copy = async () => {
    $("csv").select();
    try {
      await navigator.clipboard.writeText(text);
    } catch {
      if (!document.execCommand("copy")) {
        $("to-do").textContent = "This phone does not let a page copy: hold the text below and copy it.";
        return;
      }
    }
    carried("copied");
  };
  let sure = false;
  const clear = () => {
    if (sure) {
      load();
      stored.entries = waiting();
      save();
    }
    ask(!sure);
    render();
  };
  /** Asks once more before anything is cleared. */
  const ask = (again) => {
    sure = again;
    $("clear").textContent = sure ? "Yes, clear it: it is imported" : "Clear what was carried back";
    $("keep").hidden = !sure;
  };

  // Beginning.

  const today = () => {
    const now = new Date();
    return new Date(now - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
  };
  const options = (id, list) => $(id).replaceChildren(...list.map(([value, text]) => make("option", { value }, text)));
  /** Offers what may go in here; what was chosen stays chosen where it is offered. */
  const fillDriven = () => {
    const told = $("driven").selectedOptions[0]?.textContent;
    options("driven", [...offered().map((one, i) => [i, one.told]), ["typed", "something else …"]]);
    for (const option of $("driven").options) option.selected ||= option.textContent === told;
  };
  const words = (list, none) => [["", none], ...list.map((word) => [word, word])];

  test();
  load();
  options("strake", sheet.strakes.map(({ strake }) => [strake, strake]));
  options("found", words(data.found.map(({ word }) => word), "nothing told"));
  options("stub", data.stubs.map((word) => [word, word]));
  options("sample", words(data.samples, "no"));
  options("kind", words(data.kinds, "choose"));
  options("metals", [...data.metals, "unknown"].map((name) => [name, name]));
  $("by").value = stored.by;
  $("date").value = $("date").max = today();
  $("key").replaceChildren(...data.marks.map(([state]) => make("span", {}, mark(state), ` ${state}`)));

  $("strake").addEventListener("change", showCrossings);
  $("by").addEventListener("change", () => { load(); stored.by = clean($("by").value); save(); });
  $("again").addEventListener("change", render);
  for (const id of ["found", "stub", "driven"]) $(id).addEventListener("change", () => showPanel());
  const act = {
    undo: () => takeBack(waiting().at(-1)?.id),
    "to-carry": () => { $("h-carry").scrollIntoView(); $("h-carry").focus(); },
    tell: () => $("tell").setAttribute("aria-expanded", String(document.documentElement.classList.toggle("told"))),
    before: () => step(-1), after: () => step(1), close: () => $("panel").close(), put,
    download, copy, clear, keep: () => ask(false),
  };
  for (const [id, run] of Object.entries(act)) $(id).addEventListener("click", run);
  addEventListener("storage", (event) => { if (event.key === KEY) { load(); render(); } });
  addEventListener("beforeunload", (event) => { if (!keeps && waiting().length > 0) event.preventDefault(); });
  document.documentElement.classList.add("app");
  $("app").hidden = false;
  render();
})();
