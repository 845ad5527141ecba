// Puts questions to the worker that answers beside the page, which is only started when the first one is asked.

/** `start` gives the worker and what it needs as its wasm. What is made returns a promise of the answer's bytes, none on failure. */
export function asker(start) {
  let worker;
  let last = 0;
  const waiting = new Map();
  const give = (id, answer) => {
    waiting.get(id)?.(answer);
    waiting.delete(id);
  };
  const none = new Uint8Array();
  return async (question) => {
    // The page takes its memory back when the call returns.
    const bytes = question.slice();
    worker ??= start().then(([worker, wasm]) => {
      worker.onmessage = ({ data }) => give(data.id, data.answer);
      worker.onerror = () => [...waiting.keys()].forEach((id) => give(id, none));
      worker.postMessage({ wasm });
      return worker;
    });
    const id = ++last;
    const answer = new Promise((then) => waiting.set(id, then));
    try {
      (await worker).postMessage({ id, question: bytes });
    } catch (error) {
      console.error(error);
      give(id, none);
    }
    return answer;
  };
}
