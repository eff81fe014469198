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
  apply(); // a browser that went back keeps what was typed
})();
