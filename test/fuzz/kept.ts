import {walk} from '../../demo/walker.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Journal} from '../../source/session/journal.ts';

/** A restring that was played as far as the clamps: what random keys alone seldom come to. */
export function atRelock(): Journal {
	kept ??= play();
	return kept;
}

let kept: Journal | undefined;

function play(): Journal {
	let journal: Journal | undefined;
	for (const step of walk({...defaultSheet(), job: 'restring', practiceSeed: 3})) {
		if (step.stage.id === 're-lock' && journal) return journal;
		({journal} = step);
	}

	throw new Error('atRelock: the walk ended before the clamps');
}
