import {configureGlobal} from 'fast-check';

// The same cases every time, so that what passed here passes elsewhere; EVENFLOAT_SEED=$RANDOM looks at others.
configureGlobal({seed: Number(process.env['EVENFLOAT_SEED'] ?? 20261125)});
