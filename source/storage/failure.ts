/** Fewer bytes arrived than were written, without an error: how a disk that is just full answers. */
export class ShortWriteError extends Error {
	readonly code = 'ENOSPC';
}

/** Another program kept the door shut longer than a save takes. */
export class BusyError extends Error {
	readonly code = 'EBUSY';
}

export function codeOf(error: unknown): string | undefined {
	const code = error instanceof Error && 'code' in error ? error.code : undefined;
	return typeof code === 'string' ? code : undefined;
}

const diskFullCodes = ['ENOSPC', 'EDQUOT', 'EFBIG'];
const notAllowedCodes = ['EACCES', 'EPERM', 'EROFS'];
const notAFolderCodes = ['ENOTDIR', 'EEXIST'];

export function isDiskFull(error: unknown): boolean {
	return diskFullCodes.includes(codeOf(error) ?? '');
}

const elsewhere = 'or name another folder with --store FOLDER or the variable EVENFLOAT_STORE';

/** What a failed read or write of the store means, in one or two sentences, and what to do. */
export function sayFailure(error: unknown, place: string): string {
	const code = codeOf(error) ?? '';
	if (diskFullCodes.includes(code)) {
		return `There is no room left to store anything in ${place}. Free some space, then save again, ${elsewhere}.`;
	}
	if (notAllowedCodes.includes(code)) {
		return `${place} may not be written (${code}). Allow writing there, ${elsewhere}.`;
	}
	if (notAFolderCodes.includes(code)) {
		return `${place} cannot be used as a folder: something on that path is a file. Move that file, ${elsewhere}.`;
	}
	if (code === 'EBUSY') return `Another program is busy writing in ${place}. Try again in a moment.`;
	const reason = error instanceof Error ? error.message : String(error);
	return `${place} could not be used (${reason}). Look at that folder, ${elsewhere}.`;
}
