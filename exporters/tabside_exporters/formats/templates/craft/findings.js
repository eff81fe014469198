(() => {
  "use strict";
  const form = document.getElementById("filter");
  const articles = [...document.querySelectorAll("article")];
  const texts = new Map(articles.map((each) => [each, each.textContent.toLowerCase()]));
  const status = document.getElementById("shown");

  const apply = () => {
    const asked = new FormData(form);
    const kinds = asked.getAll("kind");
    const board = asked.get("board");
    const words = asked.get("text").toLowerCase().split(/\s+/).filter(Boolean);
    let count = 0;
    for (const each of articles) {
      const fits =
        kinds.includes(each.dataset.kind) &&
        (!board || each.dataset.boards.split("\n").includes(board)) &&
        words.every((word) => texts.get(each).includes(word));
      each.hidden = !fits;
      count += fits ? 1 : 0;
    }
    for (const section of document.querySelectorAll("section.link")) {
      section.hidden = !section.querySelector("article:not([hidden])");
    }
    for (const line of document.querySelectorAll("[data-for]")) {
      line.hidden = document.getElementById(line.dataset.for).hidden;
    }
    document.getElementById("nothing").hidden = count > 0 || articles.length === 0;
    status.textContent = `${count} of ${articles.length} findings shown.`;
  };

  const showAll = () => {
    form.reset();
    apply();
  };

  // A mark in a drawing may lead to a finding that the filter hides.
  const reveal = () => {
    const target = document.getElementById(location.hash.slice(1));
    if (target && target.hidden) {
      showAll();
      target.scrollIntoView();
    }
  };

  const copy = async (text) => {
    try {
      await navigator.clipboard.writeText(text);
      return true;
    } catch {
      const field = document.createElement("textarea");
      field.value = text;
      document.body.append(field);
      field.select();
      const done = document.execCommand("copy");
      field.remove();
      return done;
    }
  };

  for (const button of document.querySelectorAll("button.copy")) {
    button.hidden = false;
    button.addEventListener("click", async () => {
      const text = button.dataset.copy;
      const done = await copy(text);
      document.getElementById("copied").textContent = done ? `Copied ${text}.` : `Not copied: type ${text}.`;
      button.focus();
    });
  }
  form.hidden = articles.length === 0;
  form.addEventListener("input", apply);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("reset", () => setTimeout(apply));
  document.getElementById("all").addEventListener("click", () => {
    showAll();
    form.elements.text.focus();
  });
  window.addEventListener("hashchange", reveal);
  // A page that is kept fresh: a picture beside it has other sides once there is a newer one, which then takes its
  // place. Nothing but the sides of that picture is read, and nothing leaves this machine.
  const { state, picture, files } = document.body.dataset;

  // What a person looks at: the first finding on the screen, by what it says, since numbers change.
  const said = (each) => each.querySelector("p").textContent;
  const reload = () => {
    const seen = articles.find((each) => !each.hidden && each.getBoundingClientRect().bottom > 0);
    history.replaceState(
      {
        top: window.scrollY,
        said: seen && window.scrollY > 0 ? said(seen) : "",
        offset: seen ? seen.getBoundingClientRect().top : 0,
        fields: [...form.elements].map((each) => [each.type === "checkbox" ? each.checked : null, each.value]),
        open: [...document.querySelectorAll("details")].map((each) => each.open),
      },
      "",
    );
    location.reload();
  };

  const restore = () => {
    const kept = history.state;
    if (!kept || !kept.fields) {
      return;
    }
    history.replaceState(null, "");
    history.scrollRestoration = "manual";
    [...form.elements].forEach((each, n) => {
      const [checked, value] = kept.fields[n] || [];
      if (each.type === "checkbox" && value === each.value) {
        each.checked = checked;
      } else if (["search", "select-one"].includes(each.type)) {
        each.value = value || "";
      }
    });
    document.querySelectorAll("details").forEach((each, n) => {
      each.open = Boolean(kept.open[n]);
    });
    apply();
    const same = kept.said && articles.find((each) => !each.hidden && said(each) === kept.said);
    const back = () =>
      window.scrollTo(0, same ? window.scrollY + same.getBoundingClientRect().top - kept.offset : kept.top);
    back();
    window.addEventListener("load", () => {
      back(); // a browser that opens the place in the address has gone there
      history.scrollRestoration = "auto";
    });
  };

  const renew = () => {
    if (document.hidden) {
      return;
    }
    const newest = new Image();
    newest.addEventListener("load", () => {
      if (`${newest.naturalWidth}x${newest.naturalHeight}` !== state) {
        reload();
      }
    });
    newest.src = `${picture}?${Date.now()}`;
  };

  // A page from a web server may read the drawing, too; one from a file may not.
  const hold = async () => {
    for (const [path, digest] of JSON.parse(files).filter(([path]) => path)) {
      try {
        const answer = await fetch(path, { cache: "no-store" });
        const bytes = answer.ok ? await crypto.subtle.digest("SHA-256", await answer.arrayBuffer()) : null;
        const found = bytes && [...new Uint8Array(bytes)].map((each) => each.toString(16).padStart(2, "0")).join("");
        if (found && found !== digest) {
          document.getElementById("old").hidden = false;
        }
      } catch {
        return;
      }
    }
  };

  if (state) {
    setInterval(renew, 1000);
    document.addEventListener("visibilitychange", renew);
    if (location.protocol !== "file:") {
      setInterval(() => document.hidden || hold(), 5000);
      hold();
    }
  }

  restore();
  apply(); // a browser that went back keeps what was typed
})();
