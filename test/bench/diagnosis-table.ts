import {type Diagnosis, diagnose, diagnosisCauses} from '../../source/planning/diagnosis.ts';
import type {Known} from './diagnosis-cases.ts';

export interface Judged {
	readonly known: Known;
	readonly diagnosis: Diagnosis;
}

export function judged(known: Known): Judged {
	const diagnosis = diagnose(known.given);
	if (!diagnosis) throw new RangeError('judged: expected readings, got none');
	return {known, diagnosis};
}

/** The right cause is named; where it is one string's, the right string. */
export function isRight({known, diagnosis: {verdict, index}}: Judged): boolean {
	return verdict === known.cause && (known.index === undefined || index === undefined || index === known.index);
}

/** Rows: what is the matter; columns: what was said; last: right. */
export function confusionTable(all: readonly Judged[]): readonly string[] {
	const said = [...diagnosisCauses, 'unclear'] as const;
	const width = 15;
	const cell = (text: string | number) => String(text).padStart(width);
	const head = `${''.padEnd(width)}${said.map(cell).join('')}${cell('right')}`;
	const rows = diagnosisCauses.map(cause => {
		const own = all.filter(({known}) => known.cause === cause);
		const counts = said.map(verdict => own.filter(({diagnosis}) => diagnosis.verdict === verdict).length);
		return `${cause.padEnd(width)}${counts.map(cell).join('')}${cell(`${own.filter(isRight).length}/${own.length}`)}`;
	});
	return [head, ...rows];
}
