import {openStore, type Store} from '../../source/storage/store.ts';

/** A store as one program sees it; two of them on one folder are two programs. */
export function storeAt(folder: string, now: () => number = () => 1_769_850_605_000): Store {
	const opened = openStore({folder, now});
	if (!opened.ok) throw new Error(opened.said);
	return opened.store;
}
