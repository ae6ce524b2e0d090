import type {Bench} from '../../session/bench.ts';
import {comparedLines} from '../../session/report/compared.ts';

/** What was foreseen before anything was undone beside what came true; none when nothing was changed. */
export function compareLines(bench: Bench): readonly string[] {
	const compared = bench.changeCompared();
	return compared ? comparedLines(compared, bench.sheet.units) : [];
}
