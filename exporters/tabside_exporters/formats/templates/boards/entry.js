"use strict";
(() => {
  const byId = (id) => document.getElementById(id);
  const FAMILIES = JSON.parse(byId("data").textContent).families;
  const FAMILY = Object.fromEntries(FAMILIES.map((each) => [each.id, each]));
  const SVG = "http://www.w3.org/2000/svg";
  // Whether the picture's reading order (left to right, top to bottom) runs against the order seen with the opening
  // towards the reader: each picture is turned until its opening points down.
  const REVERSED = { down: false, up: true, left: false, right: true, out: false };
  const UPRIGHT = new Set(["left", "right"]);
  const ENDS = { true: ["top end", "bottom end"], false: ["left end", "right end"] };
  const TABS = {
    side: [["", "not known yet"], ["board", "the board"], ["away", "away from the board"]],
    top: [["", "not known yet"], ["near", "the lower edge of the picture"], ["far", "the upper edge of the picture"]],
  };
  const HAND_REVERSED = { board: true, away: false, near: true, far: false };

  const fresh = () => ({
    name: "", kind: "receptacle", family: "", ways: 4, opening: "down", underside: false, first: "", tabs: "",
    names: [], gives: "", takes: "", level: "",
  });
  const plugs = [fresh()];
  let current = 0;

  // What follows from what was typed, for one plug.

  const ordinal = (n) => `${n}${n % 10 === 1 && n !== 11 ? "st" : n % 10 === 2 && n !== 12 ? "nd" : n % 10 === 3 && n !== 13 ? "rd" : "th"}`;
  const clean = (text) => text.replace(/[\s,]+/g, (found) => (found.includes(",") ? "/" : " ")).trim();

  function readBack(plug) {
    const family = FAMILY[plug.family];
    const byNumber = plug.kind !== "receptacle" || plug.ways < 2 || Boolean(family && family.two_rows);
    const seen = Array.from({ length: plug.ways }, (_, k) => clean(plug.names[k] || ""));
    const found = { byNumber, seen, contacts: seen, contact1: "", entry: "", tabs: "", hand: "" };
    if (plug.kind === "receptacle") {
      found.entry = plug.opening === "out" ? "top" : "side";
      found.tabs = plug.tabs;
    }
    if (byNumber) return found;
    if (plug.first === "") return { ...found, contacts: null };
    const atStart = plug.first === "start";
    const turned = REVERSED[plug.opening] !== plug.underside;
    found.contacts = atStart ? seen : seen.slice().reverse();
    found.contact1 = atStart !== turned ? "left" : "right";
    if (plug.tabs && (!family || family.faces)) {
      found.hand = (found.contact1 === "left") !== HAND_REVERSED[plug.tabs] ? "left" : "right";
    }
    return found;
  }

  function lacking(plug) {
    const said = [];
    const back = readBack(plug);
    if (!plug.name.trim()) said.push("The plug has no name.");
    back.seen.forEach((name, k) => {
      if (!name) said.push(`${placeWords(plug, k)[0].toUpperCase()}${placeWords(plug, k).slice(1)} has no name: write nc if it is not used.`);
    });
    if (!back.byNumber && plug.first === "") said.push("Click the end where contact 1 is.");
    const family = FAMILY[plug.family];
    if (plugs.some((other) => other !== plug && other.name.trim().toLowerCase() === plug.name.trim().toLowerCase() && plug.name.trim())) {
      said.push("Another plug has this name.");
    }
    if (family && family.circuits && !family.circuits.includes(plug.ways)) {
      said.push(`No ${family.title} with ${plug.ways} ways is in the tables: count again (the file is written all the same).`);
    }
    return said;
  }

  const complete = (plug) => lacking(plug).every((text) => text.endsWith("all the same)."));

  function placeWords(plug, k) {
    const back = readBack(plug);
    if (back.byNumber) return `contact ${k + 1}`;
    const [start, end] = ENDS[UPRIGHT.has(plug.opening)];
    if (k === 0) return start;
    if (k === plug.ways - 1) return end;
    return `${ordinal(k + 1)} from the ${start.replace(" end", "")}`;
  }

  function frameWords(plug) {
    if (plug.opening !== "out") return "when the opening faces you";
    return plug.underside ? "seen from the connector's side of the board" : "when the board lies as in the maker's picture";
  }

  const words = (signal) => (signal === "" ? "without a name" : signal.toLowerCase() === "nc" ? "not used" : signal);

  function sentence(plug) {
    const back = readBack(plug);
    if (!back.contacts) return "Click the end where contact 1 is: then it is known which name belongs to which contact.";
    const first = words(back.contacts[0]);
    const last = words(back.contacts[plug.ways - 1]);
    if (plug.ways === 1) return `The only contact is ${first}.`;
    if (!back.contact1) return `Contact 1, at the contact-1 mark, is ${first}; the other end is ${last}.`;
    const frame = frameWords(plug);
    return `Contact 1, at the ${back.contact1} ${frame}, is ${first}; the other end is ${last}.`;
  }

  // The file's text.

  const toml = (text) => JSON.stringify(text).replace(/\u007f/g, "\\u007f");

  function plugText(plug) {
    const back = readBack(plug);
    const lines = ["[[plugs]]", `name = ${toml(plug.name.trim())}`];
    if (plug.kind !== "receptacle") lines.push(`kind = ${toml(plug.kind)}`);
    if (plug.family && plug.kind !== "pad") lines.push(`family = ${toml(FAMILY[plug.family].written)}`);
    if (back.contacts) {
      const list = back.contacts.length === 1 ? `[${toml(back.contacts[0])}]` : toml(back.contacts.join(", "));
      lines.push(`signals = ${list}`);
    } else {
      lines.push(`# as seen in the picture, contact 1 not found yet: ${back.seen.join(", ")}`);
    }
    if (back.contact1) {
      lines.push(`contact_1 = ${toml(back.contact1)}  # ${frameWords(plug)}`);
    }
    if (back.entry) lines.push(`entry = ${toml(back.entry)}`);
    if (back.tabs) lines.push(`tabs = ${toml(back.tabs)}`);
    for (const key of ["gives", "takes", "level"]) {
      if (plug[key].trim()) lines.push(`${key} = ${toml(plug[key].trim())}`);
    }
    return lines.join("\n");
  }

  function fileText() {
    const lines = ["[board]", `name = ${toml(boardName())}`];
    for (const key of ["title", "source"]) {
      const text = byId(`board-${key}`).value.trim();
      if (text) lines.push(`${key} = ${toml(text)}`);
    }
    lines.push("held = false  # true when you have held this against the real board");
    return [lines.join("\n"), ...plugs.map(plugText)].join("\n\n") + "\n";
  }

  const boardName = () => byId("board-name").value.replace(/[\\/:*?"<>|\u0000-\u001f]+/g, " ").replace(/^[.\-\s]+/, "").trim();
  const fileName = () => `${boardName() || "board"}.board.toml`;

  // Drawings.

  function svg(name, attributes, text) {
    const node = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
    if (text !== undefined) node.textContent = text;
    return node;
  }

  const short = (text, most) => (text.length > most ? `${text.slice(0, most - 1)}…` : text);

  // One row of contacts.  `cells` in the order drawn, each {number, name}; `first` says at which end contact 1 lies.
  function rowPicture({ cells, first, title, opening, upright, plain, onPick }) {
    const along = upright ? 26 : Math.min(46, Math.max(26, 460 / cells.length));
    const across = upright ? 120 : 88;
    const length = along * cells.length;
    const pad = 40;
    const [width, height] = upright ? [across + 2 * pad, length + 2 * pad] : [length + 2 * pad, across + 2 * pad];
    const node = svg("svg", { class: "row", viewBox: `0 0 ${width} ${height}`, width, height, role: "img", "aria-label": title });
    const put = (name, attributes, text) => node.appendChild(svg(name, attributes, text));
    if (opening) put("rect", { class: "board", x: 14, y: 14, width: width - 28, height: height - 28 });
    cells.forEach((cell, k) => {
      const box = upright
        ? { x: pad, y: pad + k * along, width: across, height: along }
        : { x: pad + k * along, y: pad, width: along, height: across };
      put("rect", { class: "cell", ...box });
      const middle = upright ? box.y + along / 2 + 4 : box.x + along / 2;
      if (upright) {
        put("text", { class: "number", x: pad + 6, y: middle }, cell.number);
        put("text", { x: pad + 30, y: middle }, short(cell.name, 12));
      } else {
        put("text", { class: "number", x: middle, y: pad + 15, "text-anchor": "middle" }, cell.number);
        put("text", { transform: `translate(${middle + 4} ${pad + across - 5}) rotate(-90)` }, short(cell.name, 9));
      }
    });
    put("rect", { class: "body", x: pad, y: pad, width: upright ? across : length, height: upright ? length : across });
    if (first) {
      const start = first === "start";
      const path = upright
        ? `M${pad + 14} ${start ? pad : pad + length} a10 10 0 0 ${start ? 1 : 0} 20 0 z`
        : `M${start ? pad : pad + length} ${pad + 8} a10 10 0 0 ${start ? 0 : 1} 0 20 z`;
      put("path", { class: "mark", d: path });
    }
    if (plain === "hand") {
      put("line", { class: "edge", x1: pad, x2: pad + length, y1: pad, y2: pad });
      put("text", { class: "small", x: width / 2, y: pad - 10, "text-anchor": "middle" }, "mating end");
      cells.forEach((_, k) => put("line", { class: "way", x1: pad + (k + 0.5) * along, x2: pad + (k + 0.5) * along, y1: pad + across, y2: pad + across + 22 }));
    }
    drawOpening(put, opening, width, height);
    if (onPick) {
      for (const end of ["start", "end"]) {
        const at = end === "start" ? 0 : (upright ? height : width) / 2;
        const half = upright ? { x: 0, y: at, width, height: height / 2 } : { x: at, y: 0, width: width / 2, height };
        const area = put("rect", { class: "pick", "data-end": end, ...half });
        area.addEventListener("click", () => onPick(end));
      }
    }
    return node;
  }

  function drawOpening(put, opening, width, height) {
    const say = (x, y, text) => put("text", { class: "small", x, y, "text-anchor": "middle" }, text);
    const arrow = (x, y, dx, dy) => put("path", { class: "way", d: `M${x - 9 * dx} ${y - 9 * dy} L${x + 9 * dx} ${y + 9 * dy} m${-6 * dx - 5 * dy} ${-6 * dy - 5 * dx} l${6 * dx + 5 * dy} ${6 * dy + 5 * dx} l${-6 * dx + 5 * dy} ${-6 * dy + 5 * dx}` });
    if (opening === "down") { arrow(width / 2 - 46, height - 14, 0, 1); say(width / 2, height - 18, "opening"); }
    if (opening === "up") { arrow(width / 2 - 46, 14, 0, -1); say(width / 2, 26, "opening"); }
    if (opening === "left") { arrow(14, height / 2, -1, 0); say(width / 2, height - 20, "opening to the left"); }
    if (opening === "right") { arrow(width - 14, height / 2, 1, 0); say(width / 2, height - 20, "opening to the right"); }
    if (opening === "out") say(width / 2, height - 18, "opening out of the page");
  }

  function figure(title, node, list) {
    const box = document.createElement("figure");
    box.dataset.row = JSON.stringify(list);
    const caption = document.createElement("figcaption");
    caption.textContent = title;
    box.append(caption, node);
    return box;
  }

  function numbered(contacts, side) {
    const cells = contacts.map((name, k) => ({ number: String(k + 1), name }));
    return side === "right" ? cells.reverse() : cells;
  }

  function drawViews(plug) {
    const views = byId("views");
    views.replaceChildren();
    const back = readBack(plug);
    if (back.byNumber) {
      const cells = numbered(back.contacts, "left");
      const title = "By contact number, from the contact-1 mark";
      views.append(figure(title, rowPicture({ cells, first: "start", title, opening: "" }), cells.map((c) => c.name)));
      return;
    }
    const upright = UPRIGHT.has(plug.opening);
    const atStart = plug.first === "start";
    const seen = back.seen.map((name, k) => ({ name, number: plug.first === "" ? "" : String(atStart ? k + 1 : plug.ways - k) }));
    const asPictured = `As in the manual's picture${plug.underside ? " (underside, seen through)" : ""}: click the end where contact 1 is`;
    const picked = (end) => { plug.first = end; show(); };
    views.append(figure(asPictured, rowPicture({ cells: seen, first: plug.first, title: asPictured, opening: plug.opening, upright, onPick: picked }), back.seen));
    views.lastChild.id = "pictured";
    if (!back.contacts) return;
    const printed = numbered(back.contacts, back.contact1);
    const title = back.entry === "top" ? `On the board, ${frameWords(plug)}` : "On the board, the opening towards you";
    views.append(figure(title, rowPicture({ cells: printed, first: back.contact1 === "left" ? "start" : "end", title, opening: back.entry === "top" ? "out" : "down" }), printed.map((c) => c.name)));
    views.lastChild.id = "printed";
    if (back.hand) {
      const hand = numbered(back.contacts, back.hand);
      const said = "The cable plug in your hand: locking-tab side facing you, wires down";
      views.append(figure(said, rowPicture({ cells: hand, first: back.hand === "left" ? "start" : "end", title: said, opening: "", plain: "hand" }), hand.map((c) => c.name)));
      views.lastChild.id = "in-hand";
    }
  }

  function scaled(family, ways, scale) {
    const pitch = family.pitch;
    const width = pitch * (ways + 1);
    const node = svg("svg", { class: "true-size", viewBox: `0 0 ${width} ${pitch * 1.6}`, width: `${width * scale}mm`, height: `${pitch * 1.6 * scale}mm`, "aria-hidden": "true" });
    node.append(svg("rect", { x: pitch * 0.15, y: pitch * 0.15, width: width - pitch * 0.3, height: pitch * 1.3, fill: "none", stroke: "#111", "stroke-width": pitch * 0.06 }));
    for (let k = 0; k < ways; k += 1) node.append(svg("circle", { cx: pitch * (k + 1), cy: pitch * 0.8, r: pitch * 0.2, fill: "#111" }));
    return node;
  }

  function drawSizes(plug) {
    const box = byId("true-size");
    box.replaceChildren();
    const family = FAMILY[plug.family];
    byId("true-size").hidden = !(family && family.pitch && plug.kind !== "pad" && !family.two_rows);
    if (!box.hidden) {
      const caption = document.createElement("figcaption");
      caption.textContent = `${family.title}, ${plug.ways}-way at true size: ${(family.pitch * (plug.ways - 1)).toFixed(2)} mm from the first contact to the last.${family.perhaps_two_rows ? " It is made in one row and in two: this page takes it as one row." : ""}`;
      box.append(scaled(family, plug.ways, 1), caption);
    }
    const gallery = byId("gallery");
    gallery.replaceChildren();
    if (!byId("gallery-box").open || plug.kind === "pad") return;
    const length = Number(byId("length").value);
    const fits = FAMILIES.filter((each) => each.pitch && !each.two_rows && (!each.circuits || each.circuits.includes(plug.ways)));
    const off = (each) => Math.abs(each.pitch * (plug.ways - 1) - length);
    const chosen = length > 0 && plug.ways > 1 ? fits.filter((each) => off(each) < Math.max(0.4, length * 0.04)).sort((a, b) => off(a) - off(b)) : fits.slice().sort((a, b) => a.pitch - b.pitch);
    for (const each of chosen) {
      const button = document.createElement("button");
      button.type = "button";
      button.append(scaled(each, plug.ways, 2), `${each.title}, ${each.pitch} mm (drawn 2 : 1)`);
      button.addEventListener("click", () => { plug.family = each.id; fill(); byId("family").focus(); });
      gallery.append(button);
    }
    if (!chosen.length) gallery.append("No family of the tables fits: measure again, or leave it open.");
  }

  // The form.

  function drawNames(plug) {
    const list = byId("names");
    while (list.children.length > plug.ways) list.lastChild.remove();
    while (list.children.length < plug.ways) {
      const k = list.children.length;
      const item = document.createElement("li");
      const label = document.createElement("label");
      label.htmlFor = `name-${k}`;
      const input = document.createElement("input");
      Object.assign(input, { type: "text", id: `name-${k}`, maxLength: 60, autocapitalize: "characters", spellcheck: false });
      input.addEventListener("input", () => { plugs[current].names[k] = input.value; show(); });
      input.addEventListener("paste", (event) => pasted(event, k));
      input.addEventListener("keydown", (event) => {
        if (event.key !== "Enter") return;
        event.preventDefault();
        (byId(`name-${k + 1}`) || byId("add")).focus();
      });
      item.append(label, input);
      list.append(item);
    }
    const back = readBack(plug);
    [...list.children].forEach((item, k) => {
      const number = back.byNumber || plug.first === "" ? "" : ` (contact ${plug.first === "start" ? k + 1 : plug.ways - k})`;
      item.firstChild.textContent = placeWords(plug, k) + number;
      const input = item.lastChild;
      if (input.value !== (plug.names[k] || "")) input.value = plug.names[k] || "";
    });
  }

  function pasted(event, k) {
    const text = (event.clipboardData && event.clipboardData.getData("text")) || "";
    const parts = text.includes("\n") || text.includes("\t") || text.includes(",") || text.includes("|")
      ? text.split(/[\n\t,|]+/) : text.trim().split(/\s+/);
    const names = parts.map((part) => part.trim()).filter(Boolean);
    if (names.length < 2) return;
    event.preventDefault();
    names.slice(0, plugs[current].ways - k).forEach((name, n) => { plugs[current].names[k + n] = name; });
    show();
  }

  function fill() {
    const plug = plugs[current];
    for (const key of ["name", "kind", "family", "ways", "gives", "takes", "level"]) byId(key).value = plug[key];
    byId("underside").checked = plug.underside;
    check("opening", plug.opening);
    show();
  }

  function check(name, value) {
    for (const radio of document.querySelectorAll(`input[name=${name}]`)) radio.checked = radio.value === value;
  }

  function fillTabs(plug) {
    const select = byId("tabs");
    const options = TABS[plug.opening === "out" ? "top" : "side"];
    if (!options.some(([value]) => value === plug.tabs)) plug.tabs = "";
    select.replaceChildren(...options.map(([value, text]) => new Option(text, value, false, value === plug.tabs)));
  }

  function show() {
    const plug = plugs[current];
    const back = readBack(plug);
    byId("with-family").hidden = plug.kind === "pad";
    byId("gallery-box").hidden = plug.kind === "pad";
    byId("picture-box").hidden = back.byNumber;
    check("first", plug.first);
    fillTabs(plug);
    const [start, end] = ENDS[UPRIGHT.has(plug.opening)];
    byId("start-words").textContent = start;
    byId("end-words").textContent = end;
    byId("names-legend").textContent = back.byNumber ? "Names, by contact number" : `Names, as seen from the ${start.replace(" end", "")} to the ${end.replace(" end", "")}`;
    const family = FAMILY[plug.family];
    byId("names-help").textContent = (family && family.two_rows && plug.kind === "receptacle" ? "Two rows: go by the numbers printed in the manual. " : "") + "nc for one that is not used. Enter goes to the next; a pasted row fills them all.";
    drawNames(plug);
    drawViews(plug);
    drawSizes(plug);
    drawPlugs();
    byId("sentence").textContent = sentence(plug);
    const missing = [...(boardName() ? [] : ["The board has no name."]), ...lacking(plug)];
    const others = plugs.filter((other) => other !== plug && !complete(other)).map((other) => other.name || "a plug without a name");
    if (others.length) missing.push(`Not complete: ${others.join(", ")}.`);
    byId("missing").textContent = missing.join(" ");
    byId("file-name").textContent = fileName();
    byId("text").value = fileText();
    const ready = Boolean(boardName()) && plugs.every(complete);
    byId("save").disabled = !ready;
    byId("copy").disabled = !ready;
    byId("done").textContent = "";
  }

  function drawPlugs() {
    const box = byId("plugs");
    while (box.children.length > plugs.length) box.lastChild.remove();
    while (box.children.length < plugs.length) {
      const k = box.children.length;
      const button = document.createElement("button");
      button.type = "button";
      button.addEventListener("click", () => { current = k; fill(); });
      box.append(button);
    }
    plugs.forEach((plug, k) => {
      box.children[k].textContent = plug.name.trim() || `plug ${k + 1}`;
      box.children[k].setAttribute("aria-current", String(k === current));
    });
    byId("remove").disabled = plugs.length < 2;
  }

  for (const key of ["name", "kind", "family", "gives", "takes", "level", "tabs"]) {
    byId(key).addEventListener("input", () => { plugs[current][key] = byId(key).value; show(); });
  }
  byId("ways").addEventListener("input", () => {
    const ways = Math.floor(Number(byId("ways").value));
    if (ways >= 1 && ways <= 60) { plugs[current].ways = ways; show(); }
  });
  byId("ways").addEventListener("change", () => { byId("ways").value = plugs[current].ways; });
  byId("underside").addEventListener("change", () => { plugs[current].underside = byId("underside").checked; show(); });
  for (const name of ["opening", "first"]) {
    for (const radio of document.querySelectorAll(`input[name=${name}]`)) {
      radio.addEventListener("change", () => { plugs[current][name] = radio.value; show(); });
    }
  }
  for (const key of ["board-name", "board-title", "board-source"]) byId(key).addEventListener("input", show);
  byId("length").addEventListener("input", () => drawSizes(plugs[current]));
  byId("gallery-box").addEventListener("toggle", () => drawSizes(plugs[current]));
  byId("add").addEventListener("click", () => {
    const before = plugs[current];
    plugs.push({ ...fresh(), family: before.family, ways: before.ways, opening: before.opening, underside: before.underside });
    current = plugs.length - 1;
    fill();
    byId("name").focus();
  });
  byId("remove").addEventListener("click", () => {
    plugs.splice(current, 1);
    current = Math.min(current, plugs.length - 1);
    fill();
    byId("name").focus();
  });
  byId("entry").addEventListener("submit", (event) => event.preventDefault());
  byId("save").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([fileText()], { type: "text/plain" }));
    link.download = fileName();
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    byId("done").textContent = `Saved as ${fileName()}.`;
  });
  byId("copy").addEventListener("click", async () => {
    byId("text").select();
    let copied = false;
    try { await navigator.clipboard.writeText(fileText()); copied = true; } catch { copied = document.execCommand("copy"); }
    byId("done").textContent = copied ? "Copied." : "Select the text and copy it with the keyboard.";
  });
  fill();
})();
