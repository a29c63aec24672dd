// @ts-check
/**
 * The search, which starts at the first question: the text of all pages is fetched then, and the theme's own worker makes an index of it.
 * That takes as long as an answer of the calculator takes to come, and most visits never search. Where the theme's worker is, `pages.json`
 * says: what stands behind the # of this one's address is lost where a service worker serves it.
 *
 * In: `{type: 0, data}`, the settings, and `{type: 2, data}`, a question. Out: `{type: 1}` when questions may come, and `{type: 3, data}`,
 * what was found. The theme asks an empty question first, to which nothing is found.
 */
const SETTINGS = 0;
const MAY_ASK = 1;
const FOUND = 3;
/** @type {{type: number, data: object} | undefined} */
let settings;
/** @type {unknown} the newest question, which nobody has answered yet */
let question;
let starting = false;

addEventListener("message", wait);

/** @param {MessageEvent} event one of the page, not one that is passed on here */
function wait({ data: said, isTrusted }) {
  if (!isTrusted) return;
  if (said.type === SETTINGS) {
    settings = said;
    return postMessage({ type: MAY_ASK });
  }
  if (!said.data.trim()) return findNothing();
  question = said;
  if (!starting) start();
}

/** Without a network nothing is found, and the next question tries again. */
async function start() {
  starting = true;
  const say = globalThis.postMessage;
  try {
    const { worker, docs } = await textOfPages();
    globalThis.postMessage = waitForIndex(say);
    importScripts(new URL(worker, location.href));
    nameNodesApart();
    if (settings) pass({ ...settings, data: { ...settings.data, docs } });
  } catch {
    globalThis.postMessage = say;
    starting = false;
    findNothing();
  }
}

/**
 * What the theme's worker says is not for the page until it has its index: it answers the questions that came before without one. The newest
 * question is asked again then.
 * @param {typeof globalThis.postMessage} say
 * @returns {(said: {type: number}) => void}
 */
function waitForIndex(say) {
  return ({ type }) => {
    if (type !== MAY_ASK) return;
    globalThis.postMessage = say;
    removeEventListener("message", wait);
    pass(question);
  };
}

/**
 * lunr, which makes the index, takes two nodes of its tree of words for one if their names are equal, and a name is letters and numbers without
 * anything between them. With words that hold digits, different nodes then have one name, and some searches find nothing.
 */
function nameNodesApart() {
  const { TokenSet } = /** @type {any} */ (globalThis).lunr;
  TokenSet.prototype.toString = function () {
    const edges = Object.entries(this.edges).sort(([one], [other]) => (one < other ? -1 : 1));
    return [Number(this.final), ...edges.map(([letter, { id }]) => letter + id)].join(";");
  };
}

/** @returns {Promise<{worker: string, docs: object[]}>} the way from here to the theme's worker, and the text of all pages */
async function textOfPages() {
  const reply = await fetch(new URL("../search/pages.json", location.href));
  if (!reply.ok) throw new Error(`The text of the pages did not come: ${reply.status}.`);
  return reply.json();
}

function findNothing() {
  postMessage({ type: FOUND, data: { items: [] } });
}

/** @param {unknown} data */
function pass(data) {
  dispatchEvent(new MessageEvent("message", { data }));
}
