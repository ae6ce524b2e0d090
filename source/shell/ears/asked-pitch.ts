import type {StringNumber} from '../../music/string-number.ts';
import type {How} from '../../session/facts.ts';
import {saidToBe} from '../../stages/common/guided.ts';
import type {Entry} from '../../terminal/entry.ts';
import {type Seen, stringNamed} from '../seen.ts';

/** The pitch that the task at hand asks for. */
export interface AskedPitch {
	readonly string: StringNumber;
	readonly how: How;
	readonly fret?: number;
	/** Where the string is to be turned to: heard on the way there, it is not read yet. */
	readonly toCents?: number;
}

/** Undefined where no pitch is asked for. A string chosen on the entry line takes the place of the task's. */
export function askedPitch({bench, task}: Seen, entry: Entry): AskedPitch | undefined {
	const {practice, string: about} = task;
	const chosen = stringNamed(entry, bench);
	if (practice?.kind === 'pluck') {
		const {how, fret} = practice;
		return {string: chosen ?? practice.string, how, ...(fret !== undefined && {fret})};
	}

	if (practice?.kind === 'turn' || practice?.kind === 'claw-until') {
		if (chosen !== undefined && chosen !== practice.string) return {string: chosen, how: 'open'};
		const {string, toCents} = practice;
		return {string, how: 'open', ...((practice.kind === 'claw-until' || saidToBe(bench) !== 'plucked') && {toCents})};
	}

	const isPulled = practice?.kind === 'deeds' && practice.deeds.some(({type}) => type === 'StringStretched');
	if (isPulled && about !== undefined) return {string: chosen ?? about, how: 'open'};
	return chosen === undefined ? undefined : {string: chosen, how: 'open'};
}

/** Semitones by which it sounds above the open string. */
export function semitonesUp({how, fret}: Pick<AskedPitch, 'how' | 'fret'>): number {
	return how === 'open' ? 0 : how === 'harmonic' ? 12 : (fret ?? 12);
}
