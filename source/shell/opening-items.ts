import type {SetupSummary} from '../storage/store.ts';
import type {Opening} from './state.ts';

/** What can be chosen on the first screen, top to bottom. */
export type OpeningItem =
	| {readonly kind: 'resume' | 'kept'; readonly summary: SetupSummary}
	| {readonly kind: 'new' | 'practice'};

export function openingItems({kept}: Pick<Opening, 'kept'>): readonly OpeningItem[] {
	const last = kept.find(({finished}) => !finished);
	return [
		...(last ? [{kind: 'resume', summary: last} as const] : []),
		{kind: 'new'},
		{kind: 'practice'},
		...kept.map(summary => ({kind: 'kept', summary}) as const),
	];
}
