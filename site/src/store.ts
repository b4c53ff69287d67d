// What the mentor's page keeps: more than local storage takes, in this browser, and nowhere else. Each
// of these fails where the browser keeps nothing (private windows, full storage).

const part = "kept";

function opened(): Promise<IDBDatabase> {
  return new Promise((done, failed) => {
    const asked = indexedDB.open("starter-plan", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(part);
    asked.onsuccess = () => done(asked.result);
    asked.onerror = asked.onblocked = () => failed(asked.error ?? new Error("the storage is in use"));
  });
}

async function within<T>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const base = await opened();
  try {
    return await new Promise((done, failed) => {
      const work = base.transaction(part, mode);
      const asked = ask(work.objectStore(part));
      // Only now does it stand; storage may still be full before.
      work.oncomplete = () => done(asked.result);
      work.onerror = work.onabort = () => failed(work.error ?? new Error("the storage took nothing"));
    });
  } finally {
    base.close();
  }
}

export const put = (name: string, value: unknown): Promise<unknown> => within("readwrite", (store) => store.put(value, name));
export const got = (name: string): Promise<unknown> => within("readonly", (store) => store.get(name) as IDBRequest<unknown>);
export const remove = (name: string): Promise<unknown> => within("readwrite", (store) => store.delete(name));
