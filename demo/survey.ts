import {truth} from '../source/practice/index.ts';
import {benchOf} from '../source/session/bench-of.ts';
import {defaultSheet, withSet} from '../source/session/catalog/default-sheet.ts';
import {setsFor} from '../source/session/catalog/sets.ts';
import {practiceGuitarOf} from '../source/session/practice-world.ts';
import {type InstrumentSheet, type Job, jobs} from '../source/session/sheet.ts';
import {type Step, walk} from './walker.ts';

/**
 * `node .build/run.mjs demo/survey.ts [guitars per job] [first seed] [job ...]`:
 * walks whole set-ups on practice guitars and prints what came of each in
 * truth. For whoever changes estimation, planning or a stage: what is wrong
 * anywhere in the way shows here.
 */
const [count = '20', first = '1', ...chosen] = process.argv.slice(2);

interface Outcome {
	readonly end: string;
	readonly openCents: number;
	/** What the tool itself believes is the worst open string, cents. */
	readonly believedCents: number;
	readonly plateMm: number;
	readonly frettedCents: number;
	readonly turns: number;
	readonly plucks: number;
	readonly saddleMoves: number;
	readonly tasks: number;
	/** Turns and plucks of each stage, in order. */
	readonly byStage: Readonly<Record<string, readonly [turns: number, plucks: number]>>;
}

function sheetOf(job: Job, practiceSeed: number): InstrumentSheet {
	const sheet = {...defaultSheet(), job, practiceSeed};
	const nines = setsFor(6).find(({name}) => name === 'nines')!.strings;
	return job === 'change' ? {...sheet, before: withSet(sheet, nines).strings} : sheet;
}

function outcomeOf(sheet: InstrumentSheet): Outcome {
	const steps: Step[] = [];
	let end = 'sheet';
	try {
		for (const step of walk(sheet)) steps.push(step);
	} catch (error) {
		end = (error as Error).message;
	}

	const {story} = steps.at(-1)!.journal;
	const {cents, tailM, fretted12ErrorCents} = truth(practiceGuitarOf(story)!);
	const worst = (values: readonly (number | undefined)[]) => Math.max(...values.map(value => Math.abs(value ?? 9999)));
	const tally = (kept: readonly Step[]) => {
		const types = kept.flatMap(({deeds}) => deeds.map(({type}) => type));
		const of = (...wanted: readonly string[]) => types.filter(type => wanted.includes(type)).length;
		return {
			turns: of('PegTurned', 'FineTunerTurned', 'ClawTurned'),
			plucks: of('PitchRead'),
			saddles: of('SaddleMoved'),
		};
	};
	const all = tally(steps);
	const ids = [...new Set(steps.map(({stage}) => stage.id))];
	return {
		end,
		openCents: worst(cents),
		believedCents: worst(benchOf(story).strings.map(({now}) => now?.mean)),
		plateMm: Math.abs(1000 * tailM - sheet.plateWishMm),
		frettedCents: worst(fretted12ErrorCents),
		turns: all.turns,
		plucks: all.plucks,
		saddleMoves: all.saddles,
		tasks: steps.length,
		byStage: Object.fromEntries(
			ids.map(id => {
				const {turns, plucks} = tally(steps.filter(({stage}) => stage.id === id));
				return [id, [turns, plucks] as const];
			}),
		),
	};
}

for (const job of jobs.filter(job => chosen.length === 0 || chosen.includes(job))) {
	for (let seed = Number(first); seed < Number(first) + Number(count); seed++) {
		const {byStage, ...outcome} = outcomeOf(sheetOf(job, seed));
		const {end, openCents, believedCents, plateMm, frettedCents, turns, plucks, saddleMoves, tasks} = outcome;
		const stages = Object.entries(byStage).flatMap(([id, [turned, plucked]]) =>
			turned + plucked > 0 ? [`${id} ${turned}/${plucked}`] : [],
		);
		console.log(
			`${job} ${seed}: open ${openCents.toFixed(1)} c (believed ${believedCents.toFixed(1)}), plate ${plateMm.toFixed(2)} mm, fretted ${frettedCents.toFixed(1)} c; ` +
				`${turns} turns, ${saddleMoves} saddle moves, ${plucks} plucks, ${tasks} tasks (${stages.join(', ')}); ${end}`,
		);
	}
}
