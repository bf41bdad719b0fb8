// The rules of the sheet: what stands in each hole, what may be done to it, and the table that is
// carried back. Nothing here touches the page. The table of deeds comes with the data, from the
// program that checks the log, so that the two cannot drift apart.
"use strict";

/**
 * @typedef {{content: number, kind: number|null, found: number[], new?: string}} Hole
 * @typedef {{name: string, member: string, end: string, zone: string, off: boolean, holes: Hole[]}} Crossing
 * @typedef {{set: string, kind: string, metal: string, size: string, bung: string, covered: boolean,
 *   plan: string|null, at: string[]|null, told: string}} Driving `at` is where its plan still waits
 * @typedef {{id: string, date: string, did: string, at: string, holes: number[], found: string, stub: string,
 *   sample: string, diameter: string, driven: Driving|null, by: string, note: string, carried: string}} Entry
 *   `at` is a crossing; no `holes` is a new one.
 */

/** The columns of what is carried back, by the names the log has for them. */
const COLUMNS = ["date", "did", "place", "set", "found", "stub", "sample", "diameter",
  "per crossing", "kind", "metal", "size", "bung", "hole", "plan", "by", "note", "sheet"];

/** The crossings of the record, by name, and the strakes they are in. */
function readSheet(data) {
  const crossings = new Map();
  const strakes = data.strakes.map(({ strake, crossings: list }) => {
    const names = list.map(({ member, end, zone, off, holes }) => {
      const name = `${strake} ${member}${end}`;
      crossings.set(name, {
        name, zone, off, end, member: `${strake} ${member}`,
        holes: holes.map(([content, kind, found]) => ({ content, kind, found })),
      });
      return name;
    });
    return { strake, names };
  });
  return { data, crossings, strakes };
}

/** Holes as a place names them: `1-3+5`. */
function runs(numbers) {
  const parts = [];
  for (const n of [...numbers].sort((a, b) => a - b)) {
    const last = parts.at(-1);
    if (last && last[1] === n - 1) last[1] = n;
    else parts.push([n, n]);
  }
  return parts.map(([from, to]) => (from === to ? `${from}` : `${from}-${to}`)).join("+");
}

/** Where an entry was done, as the log writes it. */
function placeOf(sheet, entry) {
  const at = sheet.crossings.get(entry.at);
  if (!at || entry.holes.length === 0) return entry.at;
  return `${at.member}.${runs(entry.holes)}${at.end}`;
}

/** What a deed makes of each thing that can be in a hole, by what else is told of it. */
function outcomes(deed, entry) {
  const told = deed.did === "broken" ? entry.stub || "frame"
    : deed.did === "driven" && entry.driven?.covered ? "covered"
    : entry.found === "missing" ? "missing" : "";
  return deed.becomes[told] ?? deed.becomes[""];
}

/**
 * Does an entry to its crossing's holes.
 * @returns {{holes: Hole[]}|{refused: string}}
 */
function apply(sheet, crossing, holes, entry) {
  const { data } = sheet;
  const deed = data.deeds.find((deed) => deed.did === entry.did);
  if (!deed) return { refused: `nothing is known of “${entry.did}”` };
  if (deed.did === "driven" && crossing.off) return { refused: "the plank is off" };
  if (deed.did === "driven" && entry.driven?.at && !entry.driven.at.includes(entry.at)) {
    return { refused: `“${entry.driven.plan}” plans nothing here` };
  }
  const becomes = outcomes(deed, entry);
  const after = holes.slice();
  if (entry.holes.length === 0) {
    if (deed.did !== "driven") return { refused: "a new hole can only be driven" };
    if (holes.length >= data.most_holes) return { refused: "there is no room for another hole" };
    const bare = data.contents.findIndex((c) => c.plank === "open" && c.frame === "open");
    after.push({ content: becomes[bare], kind: null, found: [], new: entry.driven?.told ?? "" });
    return { holes: after };
  }
  const found = data.found.findIndex((found) => found.word === entry.found);
  for (const number of entry.holes) {
    const hole = holes[number - 1];
    if (!hole) return { refused: `hole ${number} is not there` };
    const kind = data.fastenings[hole.kind];
    const content = becomes[hole.content];
    if (content < 0) return { refused: `hole ${number}: ${data.refusals[-1 - content]}` };
    if (deed.did === "driven") {
      after[number - 1] = { content, kind: null, found: [], new: entry.driven?.told ?? "" };
      continue;
    }
    if (kind?.not_before > entry.date) {
      return { refused: `hole ${number}: “${kind.set}” was not driven yet` };
    }
    if (deed.did === "measured" && kind?.thickest_mm < millimetres(entry.diameter)) {
      return { refused: `hole ${number}: that is thicker than it was made` };
    }
    const all = found < 0 || hole.found.includes(found) ? hole.found : [...hole.found, found];
    after[number - 1] = { ...hole, content, found: all };
  }
  return { holes: after };
}

/**
 * Plays entries through in the order things happened: by day, then as they were put down.
 * @param {Entry[]} entries
 * @returns {{holes: Map<string, Hole[]>, refused: string, entry: Entry|null}}
 *   the holes of every crossing that was touched; and the first entry that cannot be.
 */
function play(sheet, entries) {
  const order = entries.map((entry, i) => ({ entry, i }));
  order.sort((a, b) => (a.entry.date < b.entry.date ? -1 : a.entry.date > b.entry.date ? 1 : a.i - b.i));
  const holes = new Map();
  for (const { entry } of order) {
    const crossing = sheet.crossings.get(entry.at);
    if (!crossing) return { holes, refused: `${entry.at} is not on this sheet`, entry };
    const result = apply(sheet, crossing, holes.get(entry.at) ?? crossing.holes, entry);
    if (result.refused) return { holes, refused: result.refused, entry };
    holes.set(entry.at, result.holes);
  }
  return { holes, refused: "", entry: null };
}

/** The one state a hole is in. */
function stateOf(sheet, hole) {
  const state = sheet.data.contents[hole.content].state;
  const unsound = hole.found.some((at) => sheet.data.found[at].unsound);
  return state === "relied on" && unsound ? "unsound" : state;
}

/** A length in millimetres, near enough to refuse a slip; NaN where it is none. */
function millimetres(text) {
  const match = /^\s*(?:(\d+)(?:\s+|-))?(\d+)(?:\.(\d+)|\/(\d+))?\s*(mm|cm|in|"|″)\s*$/.exec(text);
  if (!match) return NaN;
  const [, whole, number, decimals, under, unit] = match;
  if (whole && !under) return NaN;
  const part = under ? Number(number) / Number(under) : Number(`${number}.${decimals ?? 0}`);
  return (Number(whole ?? 0) + part) * { mm: 1, cm: 10 }[unit] || (Number(whole ?? 0) + part) * 25.4;
}

/** What was typed, without the characters that nobody types and that no record takes. */
function clean(text) {
  return text.replaceAll(/[\p{Cc}\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufffe\uffff]+/gu, " ").trim();
}

/** The table that is carried back: quoted as RFC 4180 has it, lines ended as it says. */
function csv(sheet, entries) {
  const quoted = (text) => (/[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  const rows = entries.map((entry) => {
    const cells = {
      ...entry, ...entry.driven, place: placeOf(sheet, entry), sheet: sheet.data.sheet,
      ...(entry.holes.length === 0 && { "per crossing": "1", hole: "new" }),
    };
    return COLUMNS.map((column) => quoted(cells[column] ?? "")).join(",");
  });
  return [COLUMNS.join(","), ...rows, ""].join("\r\n");
}
