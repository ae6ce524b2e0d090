import {openSync} from 'node:fs';
import {ReadStream} from 'node:tty';

/** The terminal itself, for keys while standard input brings sound; undefined where there is none. */
export function keysBeside(platform: string = process.platform): ReadStream | undefined {
	try {
		return new ReadStream(openSync(platform === 'win32' ? 'CONIN$' : '/dev/tty', 'r'));
	} catch {
		return undefined;
	}
}
