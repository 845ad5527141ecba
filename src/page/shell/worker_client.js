// Puts questions to the worker, one after the other. A worker that breaks down or says nothing is replaced by a new one, and
// its question put once more.

/** Longest time that the slowest question may take on a slow phone, ms. */
const PATIENCE = 60_000;

/** `start` gives a worker that has what it needs. What is made takes a question and returns a promise of the response's bytes, none where there was none twice. */
export function client(start) {
  let worker;
  let last = Promise.resolve();

  const drop = () => {
    worker?.then((worker) => worker.terminate(), () => {});
    worker = undefined;
  };

  async function once(question) {
    worker ??= start();
    const here = await worker;
    return new Promise((then, fail) => {
      const clock = setTimeout(() => fail(new Error("the worker says nothing")), PATIENCE);
      const end = (act) => (value) => (clearTimeout(clock), act(value));
      here.onmessage = ({ data }) => (data.response ? end(then)(data.response) : end(fail)(new Error(data.broken)));
      here.onerror = here.onmessageerror = (event) => {
        // One that breaks down while nothing is asked of it is noticed, too.
        drop();
        end(fail)(new Error(event.message));
      };
      here.postMessage({ question });
    });
  }

  async function twice(question) {
    for (const last of [false, true]) {
      try {
        return await once(question);
      } catch (error) {
        console.warn(last ? "no answer" : "asked again", error);
        drop();
      }
    }
    return new Uint8Array();
  }

  return (question) => {
    // The page takes its memory back when the call returns.
    const bytes = question.slice();
    return (last = last.then(() => twice(bytes)));
  };
}
