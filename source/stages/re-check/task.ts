import type {Bench} from '../../session/bench.ts';
import {recheckRows, recheckText} from '../../session/records/as-text.ts';
import {causeLines} from '../../session/report/sections.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask} from '../common/guided.ts';
import {stringsNamed} from '../common/rows.ts';
import {reasonWords} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {id, isTuned, outOfTolerance, stepOf, tuneChoice, tunes} from './step.ts';
import {words} from './words.ts';

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	switch (step.kind) {
		case 'read': {
			const row = step.rows[0]!;
			const expected = bench.recheck()?.strings.find(({string}) => string === row.string)?.expected;
			const why = expected ? words.read.why(formatCentsSpread(expected)) : words.read.unknown;
			const progress = 0.8 * (1 - step.rows.length / bench.strings.length);
			const asked = readTask(bench, row, why, progress);
			const rows = recheckRows(bench.recheck()?.strings ?? []);
			return {...asked, how: [...targetLines(bench), words.all(bench.strings.length), ...rows], tableRests: true};
		}
		case 'tune':
			return guidedTask(bench, 0.9) ?? readTask(bench, bench.strings[0]!, reasonWords['prove-result'], 0.9);
		case 'told':
			return toldTask(bench);
	}
}

function targetLines(bench: Bench): readonly string[] {
	return bench.recheck()?.hasOtherTargets ? [words.otherTargets] : [];
}

function toldTask(bench: Bench): Task {
	const found = bench.recheck()?.found;
	const [headline = words.title, ...rows] = found ? recheckText(found) : [];
	const out = outOfTolerance(bench);
	const isTold = found && ['fault', 'settling'].includes(found.verdict) && found.diagnosis.verdict !== 'sound';
	const told = isTold ? causeLines(found.diagnosis) : [];
	const tuned = isTuned(bench) ? [out.length > 0 ? words.tunedInPart : words.tuned] : [];
	const outNow = out.length > 0 ? [words.tune.out(stringsNamed(out.map(({string}) => string)))] : [];
	const pass = passTask(id, {
		headline,
		why: [...tuned, ...outNow, ...(told.length > 0 ? [words.likely(told.join(', '))] : [])].join(' ') || words.again,
		how: [...targetLines(bench), ...rows, words.again],
	});
	const deeds = [{type: 'WayChosen', choice: tuneChoice, value: tunes}] as const;
	const isToTune = out.length > 0 && bench.tuning.kind !== 'done';
	return {
		...pass,
		// Expectation beside reading is the table here.
		tableRests: true,
		prompt: words.prompt,
		progress: isToTune ? 0.8 : 1,
		enter: isToTune ? {label: words.tune.enter, deeds} : {...pass.enter!, label: words.done},
		...(isToTune && {practice: {kind: 'deeds', deeds}}),
	};
}
