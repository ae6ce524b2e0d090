import {writeFileSync} from 'node:fs';
import path from 'node:path';

/** How many files of one name may lie in a folder. */
const most = 99;

/**
 * Writes a new file into the first of these folders that takes it. A file of
 * that name is left alone; the new one gets a number.
 */
export function writeBeside(
	folders: readonly string[],
	name: string,
	text: string,
): {readonly ok: boolean; readonly said: string} {
	const {name: stem, ext} = path.parse(name);
	let why = '';
	for (const folder of folders) {
		for (let number = 1; number <= most; number++) {
			const file = path.join(folder, number === 1 ? name : `${stem}-${number}${ext}`);
			try {
				writeFileSync(file, text, {flag: 'wx'});
				return {ok: true, said: `Written: ${file}`};
			} catch (error) {
				const {code, message} = error as NodeJS.ErrnoException;
				if (code === 'EEXIST') continue;
				why ||= message;
				break;
			}
		}
	}

	return {ok: false, said: `Not written: ${why || `there are ${most} files of this name already`}.`};
}
