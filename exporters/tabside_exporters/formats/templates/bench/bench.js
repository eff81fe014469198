"use strict";
/* The boxes, what is typed beside them, and what a failed test means.  Nothing leaves the page but a file that is asked for. */
(() => {
  const data = JSON.parse(document.getElementById("data").textContent);
  const key = "tabside/bench/1 " + data.craft;
  const items = [...document.querySelectorAll(".item")];
  const byId = new Map();
  items.forEach((item) => byId.set(item.dataset.id, [...(byId.get(item.dataset.id) || []), item]));
  const rowAt = new Map(data.rows.map((row, n) => [row.id, n]));
  const mistakes = data.mistakes.map((each) => ({ ...each, fails: new Set(each.fails), may: new Set(each.may) }));
  const by = (id) => document.getElementById(id);
  const say = (text) => { by("said").textContent = text; };
  let state = { results: {}, typed: {} };
  let kept = false, unsaved = false;

  /* What is kept. */
  const asText = () => JSON.stringify(
    { format: "tabside/bench/1", craft: data.craft, drawing: data.drawing, results: state.results, typed: state.typed }, null, 1);

  function keep() {
    unsaved = true;
    try {
      localStorage.setItem(key, asText());
      kept = localStorage.getItem(key) !== null;
    } catch (error) {
      kept = false;
    }
    tellKept();
  }

  function tellKept() {
    by("kept").textContent = kept
      ? "This browser keeps the boxes of this craft on this device, until its data are cleared. For another device, save them to a file."
      : "THIS BROWSER DOES NOT KEEP THE BOXES: save them to a file before you close this page.";
  }

  /* Boxes by id; those that this page does not have are for rows that have changed since. */
  function understood(text) {
    const said = JSON.parse(text);
    if (said === null || typeof said !== "object" || said.format !== "tabside/bench/1") throw new Error("format");
    const results = {}, typed = {};
    let gone = 0;
    for (const [id, result] of Object.entries(said.results || {})) {
      if (result !== "done" && result !== "failed") continue;
      if (byId.has(id) || (rowAt.has(id) && result)) results[id] = result;
      else gone += 1;
    }
    for (const [id, reading] of Object.entries(said.typed || {})) {
      if (byId.has(id) && typeof reading === "string") typed[id] = reading.slice(0, 12);
    }
    return { craft: String(said.craft), drawing: String(said.drawing), results, typed, gone };
  }

  function take(told, from) {
    state = { results: told.results, typed: told.typed };
    const changed = told.gone || told.drawing !== data.drawing;
    say(`${Object.keys(told.results).length} boxes ${from}` + (changed
      ? ` of ${told.drawing === data.drawing ? "this drawing" : "an earlier drawing"}; ${told.gone} of them belong to rows that have changed since, and the new rows are open.`
      : "."));
    showAll();
  }

  function begin() {
    let text = null;
    try {
      text = localStorage.getItem(key);
      localStorage.setItem(key + " try", "1");
      localStorage.removeItem(key + " try");
      kept = true;
    } catch (error) {
      kept = false;
    }
    tellKept();
    try {
      if (text === null) {
        showAll();
      } else {
        take(understood(text), "are ticked or failed from before");
        keep();
        unsaved = false;
      }
    } catch (error) {
      say("What this browser kept cannot be read; all boxes are open.");
      showAll();
    }
  }

  /* Readings: a number, with a point or a comma; OL is an open circuit. */
  function judge(id) {
    const limits = data.readings[id];
    const text = (state.typed[id] || "").trim().replace(",", ".");
    if (!limits || text === "") return { text: "", fails: false, passes: false };
    const open = /^(ol|o\.l|1\.|inf|open)$/i.test(text);
    const value = Number(text);
    if (!open && (!/^[-+]?(\d+\.?\d*|\.\d+)$/.test(text) || !Number.isFinite(value))) {
      return { text: `Not a number. Type ${limits.unit} as on the meter, OL for an open circuit.`, fails: false, passes: false };
    }
    return limits.unit === "V" ? volts(limits, value, open) : ohms(limits, value, open);
  }

  function volts(limits, value, open) {
    if (open) return { text: "OL is no voltage: set the meter to DC volts.", fails: false, passes: false };
    if (value < 0) return { text: `STOP: ${value} V is REVERSED POLARITY, or the probes are swapped. Unplug.`, fails: true, passes: false };
    if (limits.highest === null) return { text: "No limits are known for this row: judge it yourself.", fails: false, passes: false };
    if (limits.lowest === null) return throughLimiter(limits, value);
    const range = `${limits.lowest} to ${limits.highest} V`;
    if (value < limits.lowest || value > limits.highest) return { text: `STOP: ${value} V is not within ${range}. Unplug.`, fails: true, passes: false };
    return { text: `${value} V is within ${range}. Tick the box if all else in the row is so.`, fails: false, passes: true };
  }

  /* A pack's volts behind the limiter, whose drop nobody knows: never more, and not nothing. */
  function throughLimiter(limits, value) {
    if (value > limits.highest) return { text: `STOP: ${value} V is more than ${limits.highest} V. Unplug.`, fails: true, passes: false };
    if (value < 1) return { text: `STOP: ${value} V: no power comes here. Unplug.`, fails: true, passes: false };
    return { text: `${value} V is at most ${limits.highest} V. Tick the box if the pack itself reads little more, and all else in the row is so.`, fails: false, passes: true };
  }

  function ohms(limits, value, open) {
    if (open) return { text: "Open circuit: no connection.", fails: true, passes: false };
    if (value < 0) return { text: "Below zero: touch the probes together and read them first.", fails: false, passes: false };
    if (limits.highest === null) return { text: "The limit is not known (gauge or length is missing): judge it yourself.", fails: false, passes: false };
    if (value > limits.highest) {
      return { text: `FAILED: ${value} ohm is more than ${limits.highest} ohm. Did you subtract the probes? Then a weak crimp, a cold joint or a thin wire; no swap explains it.`, fails: true, passes: false };
    }
    if (value > limits.expected) {
      return { text: `${value} ohm is at most ${limits.highest} ohm, but a wire in order has at most ${limits.expected} ohm. Subtract the probes and look at both joints; tick the box if they are sound.`, fails: false, passes: true };
    }
    return { text: `${value} ohm is at most ${limits.highest} ohm. Tick the box if all else in the row is so.`, fails: false, passes: true };
  }

  /* What failed tests mean. */
  const shows = (mistake, n) =>
    mistake.fails.has(n) ? 1 : mistake.may.has(n) ? null : (data.others_may && !data.rows[n].look ? null : 0);
  const together = (made, n) => {
    const each = made.map((mistake) => shows(mistake, n));
    return each.includes(1) ? 1 : each.includes(null) ? null : 0;
  };

  function weight(made, failed, passed, last) {
    let found = made.reduce((product, mistake) => product * mistake.weight, 1);
    for (const n of failed) {
      const fails = together(made, n);
      if (fails === 0) return 0;
      if (fails === null) found *= data.may_fail;
    }
    for (const n of passed) if (together(made, n) === 1) return 0;
    const rows = new Set(made.flatMap((mistake) => [...mistake.fails]));
    for (const n of rows) {
      const row = data.rows[n];
      if (row.step && !row.look && !failed.has(n) && !passed.has(n)) found *= row.step < last ? data.not_named : data.not_yet;
    }
    return found;
  }

  function ranked(groups, failed, passed, last) {
    const found = groups.map((made) => ({ made, weight: weight(made, failed, passed, last) })).filter((each) => each.weight > 0);
    return found.sort((a, b) => b.weight - a.weight);
  }

  function pairs(failed) {
    const some = mistakes.filter((mistake) => [...failed].some((n) => shows(mistake, n) !== 0));
    const found = [];
    some.forEach((one, at) => some.slice(at + 1).forEach((other) => {
      if ([...failed].every((n) => together([one, other], n) !== 0)) found.push([one, other]);
    }));
    const worth = (made) => made[0].weight * made[1].weight;
    return found.sort((a, b) => worth(b) - worth(a)).slice(0, 2000);
  }

  const bits = (share) => (share <= 0 || share >= 1 ? 0 : -share * Math.log2(share) - (1 - share) * Math.log2(1 - share));

  function measureNext(found, told) {
    const most = found.slice(0, 40);
    const total = most.reduce((sum, each) => sum + each.weight, 0);
    let best = null, tells = 0.02;
    data.rows.forEach((row, n) => {
      if (told.has(n)) return;
      let fail = 0, unsure = 0;
      for (const each of most) {
        const shown = together(each.made, n);
        fail += (each.weight / total) * (shown === null ? 0.5 : shown);
        unsure += shown === null ? each.weight / total : 0;
      }
      if (bits(fail) - unsure > tells) [best, tells] = [n, bits(fail) - unsure];
    });
    return best;
  }

  function means() {
    const of = (result) => new Set(Object.keys(state.results)
      .filter((id) => state.results[id] === result && rowAt.has(id)).map((id) => rowAt.get(id)));
    const all = of("failed"), passed = of("done");
    const failed = new Set([...all].filter((n) => !data.rows[n].own));
    const last = Math.max(0, ...[...failed].map((n) => data.rows[n].step));
    let found = ranked(mistakes.map((each) => [each]), failed, passed, last);
    const two = !found.length;
    if (two) found = ranked(pairs(failed), failed, passed, last);
    const total = found.reduce((sum, each) => sum + each.weight, 0);
    const groups = new Map();
    for (const each of found) {
      const same = each.made.map((mistake) => mistake.same).sort().join("&");
      const group = groups.get(same) || { made: each.made, weight: 0, at: new Set(), rows: [] };
      each.made.forEach((mistake) => group.at.add(mistake.at));
      group.rows.push(...each.made);
      group.weight += each.weight / total;
      groups.set(same, group);
    }
    const told = new Set([...all, ...passed]);
    return { two, list: [...groups.values()].sort((a, b) => b.weight - a.weight).slice(0, data.most_shown), next: found.length ? measureNext(found, told) : null };
  }

  /* What is shown. */
  const element = (name, text, more = {}) => Object.assign(document.createElement(name), { textContent: text }, more);

  function button(text, press) {
    const made = element("button", text, { type: "button" });
    made.addEventListener("click", press);
    return made;
  }

  function elsewhere(each) {
    const others = [...each.at].filter((place) => !each.made.some((mistake) => mistake.at === place));
    return others.length ? `; or the same at ${others.join(", ")}` : "";
  }

  function showMeans(box, told) {
    box.replaceChildren(element("h3", told.list.length ? (told.two ? "Two mistakes at once, perhaps" : "Likeliest mistakes") : "Nothing listed explains it"));
    if (!told.list.length) {
      box.append(element("p", "Measure the failed rows again. If they fail again: a cold joint, a weak crimp, a wrong gauge, or a drawing that is wrong."));
    }
    const list = element("ol", "");
    for (const each of told.list) {
      const line = element("li", `${each.made.map((mistake) => mistake.do).join("; and ")}${elsewhere(each)} (${Math.max(1, Math.round(each.weight * 100))} of 100) `);
      line.append(button("Fixed: open its tests again", () => reopen(each.rows)));
      list.append(line);
    }
    box.append(list);
    if (told.next !== null) showNext(box, data.rows[told.next]);
  }

  function showNext(box, row) {
    box.append(element("h3", "Measure next"), element("p", `${row.step ? `Test ${row.step}. ` : ""}${row.words}`));
    box.append(button("It is so", () => setResult(row.id, "done")), button("It is not so", () => setResult(row.id, "failed")));
  }

  function reopen(made) {
    const rows = new Set(made.flatMap((mistake) => [...mistake.fails, ...mistake.may]));
    const failed = Object.keys(state.results).filter((id) => state.results[id] === "failed");
    for (const id of [...failed, ...[...rows].map((n) => data.rows[n].id)]) {
      delete state.results[id];
      delete state.typed[id];
    }
    keep();
    showAll();
    say("The tests of this mistake are open again: measure them all.");
  }

  function setResult(id, result) {
    if (result) state.results[id] = result;
    else delete state.results[id];
    keep();
    showAll();
  }

  function show(item, focused, meaning) {
    const id = item.dataset.id, result = state.results[id];
    item.classList.toggle("done", result === "done");
    item.classList.toggle("failed", result === "failed");
    item.querySelector("input[type=checkbox]").checked = result === "done";
    const field = item.querySelector("input[type=text]");
    if (field && field !== focused) field.value = state.typed[id] || "";
    const fail = item.querySelector(".fail");
    if (!fail) return;
    fail.setAttribute("aria-pressed", String(result === "failed"));
    item.querySelector(".judged").textContent = judge(id).text;
    const box = item.querySelector(".means");
    box.hidden = result !== "failed" || !rowAt.has(id);
    if (box.hidden) return;
    if (data.rows[rowAt.get(id)].own) box.replaceChildren(element("p", data.of_itself));
    else showMeans(box, meaning());
  }

  function showAll() {
    let told = null;
    const meaning = () => (told ??= means()); // of all rows together: once, and only when a row has failed
    items.forEach((item) => show(item, document.activeElement, meaning));
    const done = items.filter((item) => item.classList.contains("done")).length;
    const failed = items.filter((item) => item.classList.contains("failed")).length;
    by("progress").textContent = `${done} of ${items.length} boxes ticked${failed ? `, ${failed} FAILED` : ""}.`;
    document.querySelectorAll("[data-count]").forEach((each) => {
      const own = [...by(each.dataset.count).querySelectorAll(".item")];
      const ticked = own.filter((item) => item.classList.contains("done")).length;
      const bad = own.filter((item) => item.classList.contains("failed")).length;
      if (!own.length) return void (each.textContent = "nothing to tick");
      each.textContent = `${ticked} of ${own.length}${bad ? `, ${bad} FAILED` : ticked === own.length ? ", all done" : ""}`;
    });
  }

  /* Hands. */
  items.forEach((item) => {
    const id = item.dataset.id, box = item.querySelector("input[type=checkbox]"), field = item.querySelector("input[type=text]");
    box.addEventListener("change", () => {
      if (box.checked && judge(id).fails) {
        box.checked = false;
        say("The reading that is typed there fails: measure again first.");
        return;
      }
      setResult(id, box.checked ? "done" : "");
    });
    const fail = item.querySelector(".fail");
    if (fail) fail.addEventListener("click", () => setResult(id, state.results[id] === "failed" ? "" : "failed"));
    if (field) field.addEventListener("change", () => {
      state.typed[id] = field.value.slice(0, 12);
      if (judge(id).fails) setResult(id, "failed");
      else setResult(id, state.results[id] === "failed" ? "" : state.results[id]);
    });
    if (field) field.addEventListener("input", () => {
      state.typed[id] = field.value.slice(0, 12);
      item.querySelector(".judged").textContent = judge(id).text;
    });
  });

  by("next").addEventListener("click", () => {
    const open = items.find((item) => item.classList.contains("failed")) || items.find((item) => !item.classList.contains("done"));
    if (!open) return say("Every box is ticked.");
    open.scrollIntoView({ block: "center" });
    open.querySelector("input[type=checkbox]").focus({ preventScroll: true });
  });

  by("save").addEventListener("click", () => {
    const url = URL.createObjectURL(new Blob([asText()], { type: "application/json" }));
    const link = element("a", "", { href: url, download: "bench-boxes.json" });
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(url), 10000);
    unsaved = false;
    say("Saved as bench-boxes.json, where this browser puts downloads.");
  });

  by("load").addEventListener("change", async () => {
    const file = by("load").files[0];
    if (!file) return;
    try {
      if (file.size > 4000000) throw new Error("size");
      const told = understood(await file.text());
      if (told.craft !== data.craft) say(`Not loaded: this file is about ${told.craft}.`);
      else {
        take(told, "were loaded from the file, and stand instead of those before");
        keep();
      }
    } catch (error) {
      say("Not loaded: this is no file of boxes that this page has saved.");
    }
    by("load").value = "";
  });

  by("clear").addEventListener("click", () => {
    const sure = by("clear").dataset.sure === "yes";
    by("clear").dataset.sure = sure ? "" : "yes";
    by("clear").textContent = sure ? "Open all boxes again" : "Press again to open all boxes";
    if (!sure) return;
    state = { results: {}, typed: {} };
    keep();
    showAll();
    say("All boxes are open.");
  });

  addEventListener("beforeunload", (event) => { if (!kept && unsaved) event.preventDefault(); });
  document.querySelectorAll(".tools, .result").forEach((each) => { each.hidden = false; });
  begin();
})();
