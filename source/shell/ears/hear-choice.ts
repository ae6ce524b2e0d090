import {type RecorderName, recorderNames} from '../../listening/sources/recorders.ts';

/** Where sound comes from when the program listens. */
export type HearChoice =
	/** Through a program of this machine: the best one found, or the one named; its usual input, or the one named. */
	| {readonly kind: 'live'; readonly program?: RecorderName; readonly device?: string}
	| {readonly kind: 'recording'; readonly file: string}
	/** Standard input: WAV, or raw samples at this rate. */
	| {readonly kind: 'piped'; readonly rawRateHz: number};

export const usualRawRateHz = 48_000;
const rawRatesHz = [8000, 192_000] as const;

/**
 * `live`, `live:PROGRAM`, `live:DEVICE`, `live:PROGRAM:DEVICE`; `-` or `-:44100`
 * for sound piped in; anything else is a file.
 *
 * @returns A sentence about what was read if it cannot be.
 */
export function readHearChoice(text: string): HearChoice | string {
	const [first, ...rest] = text.split(':');
	if (first === 'live') {
		const program = recorderNames.find(name => name === rest[0]);
		const device = (program === undefined ? rest : rest.slice(1)).join(':');
		return {kind: 'live', ...(program && {program}), ...(device !== '' && {device})};
	}

	if (first !== '-') return {kind: 'recording', file: text};
	const rate = rest.join(':');
	const rawRateHz = rate === '' ? usualRawRateHz : Number(rate);
	if (Number.isInteger(rawRateHz) && rawRateHz >= rawRatesHz[0] && rawRateHz <= rawRatesHz[1])
		return {kind: 'piped', rawRateHz};
	return `read ${text}; behind - and a colon goes a sample rate from ${rawRatesHz[0]} to ${rawRatesHz[1]}, for example -:44100`;
}
