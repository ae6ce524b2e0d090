import type {StringNumber} from '../../music/string-number.ts';
import type {Bench} from '../bench.ts';
import type {ArmProof} from './arm-proof.ts';
import type {StringReport} from './set-up-sheet.ts';

/** What the owner should keep an eye on. Codes and numbers; the words are elsewhere. */
export type Watch =
	| {readonly kind: 'new-strings'}
	| {readonly kind: 'near-strength'; readonly string: StringNumber; readonly share: number}
	| {readonly kind: 'intonation'; readonly string: StringNumber; readonly cents: number}
	| {readonly kind: 'pitch'; readonly string: StringNumber; readonly cents: number}
	| {readonly kind: 'plate'; readonly tailMm: number; readonly wishMm: number}
	| {readonly kind: 'arm'; readonly proof: ArmProof};

/** From this share of the minimum breaking load on, a plain string is worth a word. */
const strainedShare = 0.6;
/** Off by more than this at the tail, mm, is seen and felt. */
const plateOffMm = 0.5;

export function watchList(
	bench: Bench,
	strings: readonly StringReport[],
	proofs: readonly ArmProof[],
): readonly Watch[] {
	const {sheet, plate} = bench;
	const isOff = Math.abs(plate.tailMm.mean - sheet.plateWishMm) > plateOffMm;
	return [
		...(strings.some(({isNew}) => isNew) ? [{kind: 'new-strings'} as const] : []),
		...proofs.filter(({leftover}) => leftover.verdict !== 'sound').map(proof => ({kind: 'arm', proof}) as const),
		...strings.flatMap(({string, nowCents}) =>
			nowCents !== undefined && Math.abs(nowCents) > 2 * sheet.openToleranceCents
				? [{kind: 'pitch', string, cents: nowCents} as const]
				: [],
		),
		...strings.flatMap(({string, nowIntonationCents: cents}) => {
			const wish = sheet.strings[string - 1]?.frettedOffsetCents ?? 0;
			return cents !== undefined && Math.abs(cents - wish) > 1.5 * sheet.frettedToleranceCents
				? [{kind: 'intonation', string, cents} as const]
				: [];
		}),
		...(isOff ? [{kind: 'plate', tailMm: plate.tailMm.mean, wishMm: sheet.plateWishMm} as const] : []),
		...bench.strings
			.filter(({strengthShare}) => strengthShare > strainedShare)
			.map(({string, strengthShare: share}) => ({kind: 'near-strength', string, share}) as const),
	];
}
