// Puts questions to the checker, which is only started when the first one is asked.

/** `start` gives the worker and what it needs as its wasm. What is made returns a promise of the answer's text, empty on failure. */
export function asker(start) {
  let worker;
  let last = 0;
  const waiting = new Map();
  const give = (id, text) => {
    waiting.get(id)?.(text);
    waiting.delete(id);
  };
  return async (question) => {
    worker ??= start().then(([worker, wasm]) => {
      worker.onmessage = ({ data }) => give(data.id, data.text);
      worker.onerror = () => [...waiting.keys()].forEach((id) => give(id, ""));
      worker.postMessage({ wasm });
      return worker;
    });
    const id = ++last;
    const answer = new Promise((then) => waiting.set(id, then));
    try {
      (await worker).postMessage({ id, question });
    } catch (error) {
      console.error(error);
      give(id, "");
    }
    return answer;
  };
}
