// The arithmetic of the pocket page: what kitlist's own functions compute, under their own names, from figures and
// tables that Python wrote into the page. Nothing is rounded or decided here that is not decided there.
"use strict";

function reckoning(data) {
  const { figures: F, tables: T } = data;
  const WARM_C = 25.0, NEVER = 2.0, HAIR = 1e-9, LEAST_OHM = 1e-4, CALCIUM_OVER_FLOODED_V = 0.15;
  const span = (low, best, high) => ({ low, best, high });
  const exactly = (value) => span(value, value, value);
  const ANY = { low: 0.0, high: 1.0 };  // a quantile that nothing narrows

  class OutOfRange extends Error {}

  // Straight lines through rising points; outside them nothing is known.
  function between(points, x) {
    if (!(points[0][0] <= x && x <= points.at(-1)[0])) throw new OutOfRange(`${x} is outside the table`);
    const [first, ...later] = points;
    let [x0, y0] = first;
    for (const [x1, y1] of later) {
      if (x <= x1) return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
      [x0, y0] = [x1, y1];
    }
    return y0;
  }

  // physics/battery/charge.py
  const kinds_of = (chemistry) => (chemistry === "unknown" ? Object.keys(T.ocv) : [chemistry]);
  const ocv_points = (chemistry) => T.ocv[chemistry];

  function limits_of(chemistry) {
    const known = kinds_of(chemistry).map((kind) => T.limits[kind]);
    return [Math.max(...known.map(([spread]) => spread)), Math.min(...known.map(([, fresh]) => fresh))];
  }

  const fresh_v = (chemistry) => Math.min(...kinds_of(chemistry).map((kind) => limits_of(kind)[1]));

  function rested_volts({ soc_ratio, chemistry, temp_c = WARM_C }) {
    return between(ocv_points(chemistry), soc_ratio) + F.ocv_slope * (temp_c - WARM_C);
  }

  function temperature_offset({ temp_c }) {
    const linear = F.ocv_slope * (temp_c - WARM_C);
    const points = T.ocv_temperature;
    if (!(points[0][0] <= temp_c && temp_c <= points.at(-1)[0])) return exactly(linear);
    const tabled = between(points, temp_c) - between(points, WARM_C);
    return span(Math.min(linear, tabled), linear, Math.max(linear, tabled));
  }

  function soc_at(volts_25, chemistry) {
    const points = ocv_points(chemistry);
    if (volts_25 <= points[0][1]) return 0.0;
    if (volts_25 >= points.at(-1)[1]) return 1.0;
    return between(points.map(([soc, volts]) => [volts, soc]), volts_25);
  }

  function way_of({ rested_h, bled }) {
    if (rested_h !== null && rested_h >= 6.0) return "RESTED";
    if (bled) return "BLED";
    return rested_h !== null && rested_h >= 2.0 ? "SHORT" : null;
  }

  const surface_v = (way) => ({ RESTED: 0.0, SHORT: F.surface_v.high, BLED: F.bled_v })[way];

  function doubt_v({ chemistry, way, meter_ratio }) {
    const [spread_v] = limits_of(chemistry);
    return Math.sqrt(spread_v * spread_v + (meter_ratio * 12.5) ** 2) + surface_v(way);
  }

  function charge_at({ volts_25_v, chemistry, less_v = 0.0 }) {
    const volts = Math.min(volts_25_v, fresh_v(chemistry)) - less_v;
    return Math.min(...kinds_of(chemistry).map((kind) => soc_at(volts, kind)));
  }

  // Charge as low, best, high and the volts at 25 °C; `soc_ratio` is null where it cannot be told, and `reason` says why.
  function state_of_charge({ chemistry, rested_v, rested_h, temp_c, quick_load, meter_ratio }) {
    const unknown = (reason) => ({ soc_ratio: null, ocv_25_v: null, reason });
    if (!(rested_v >= 0.0 && rested_v <= 20.0)) return unknown("no reading of a 12 V battery");
    if (chemistry === "lithium") return unknown("lithium: its volts do not tell its charge");
    const way = way_of({ rested_h, bled: quick_load });
    if (way === null) return unknown(rested_h === null ? "say how long it rested" : "rest 2 h or more, or bleed it first");
    const offset = temp_c === null ? span(temperature_offset({ temp_c: F.battery_temp_c.low }).low, 0.0, 0.0) : temperature_offset({ temp_c });
    const volts_25_v = rested_v - offset.best;
    const kinds = kinds_of(chemistry).filter((kind) => volts_25_v <= ocv_points(kind).at(-1)[1] + 0.5);
    if (!kinds.length) return unknown("over half a volt above full: was it on charge?");
    const over = volts_25_v > fresh_v(chemistry) + HAIR;
    if (over && !quick_load && (rested_h === null || rested_h < 24.0)) return unknown("surface charge of the last charging: bleed it, or let it rest 24 h");
    const doubt = doubt_v({ chemistry, way, meter_ratio });
    const low = charge_at({ volts_25_v, chemistry, less_v: doubt });
    const capped_v = Math.min(volts_25_v, fresh_v(chemistry));
    const colder_v = offset.best - offset.low;
    const high = Math.max(...kinds.map((kind) => soc_at(capped_v + colder_v + doubt - surface_v(way), kind)));
    const best = chemistry === "unknown" ? (low + high) / 2 : soc_at(capped_v, chemistry);
    const meter_v = meter_ratio * rested_v;
    return {
      soc_ratio: span(low, best, high),
      ocv_25_v: span(volts_25_v - meter_v - surface_v(way), volts_25_v - surface_v(way) / 2, volts_25_v + colder_v + meter_v),
      reason: "",
    };
  }

  // physics/battery/resistance.py
  function effect_of_state({ soc_ratio, temp_c }) {
    if (!(temp_c >= -40.0 && temp_c <= 60.0)) throw new OutOfRange(`battery at ${temp_c} °C`);
    return Math.exp(-F.cold_slope.best * (temp_c - WARM_C)) * (1 + F.flat_rise.best * (1 - soc_ratio));
  }

  // physics/battery/cranking.py
  function least_crank_volts({ temp_c }) {
    const points = T.load_test;
    if (points.at(-1)[0] <= temp_c && temp_c <= 60.0) return points.at(-1)[1];
    return between(points, temp_c);
  }

  // Volts over the least while cranking, by the best guess; null where it cannot be told.
  function over_v({ chemistry, resistance, temp_c, crank_a }, soc) {
    if (chemistry === "lithium" || chemistry === "unknown" || resistance === null || crank_a === null) return null;
    if (temp_c < T.load_test[0][0]) return null;
    const ocv_v = rested_volts({ soc_ratio: soc, chemistry, temp_c });
    const volts = ocv_v - F.activation_v.best - crank_a * resistance * effect_of_state({ soc_ratio: soc, temp_c });
    return volts - least_crank_volts({ temp_c });
  }

  function crank_check({ soc_ratio, ...engine }) {
    const over = soc_ratio === null ? null : over_v(engine, soc_ratio.best);
    return over === null ? null : over >= 0.0;
  }

  const to_crank = new Map();

  function charge_to_crank(engine) {
    const key = `${engine.chemistry} ${engine.resistance} ${engine.temp_c} ${engine.crank_a}`;
    if (!to_crank.has(key)) to_crank.set(key, charge_to_crank_anew(engine));
    return to_crank.get(key);
  }

  function charge_to_crank_anew(engine) {
    const full_v = over_v(engine, 1.0);
    if (full_v === null) return null;
    if (full_v < 0.0) return Infinity;
    let [above, above_v] = [1.0, full_v];
    for (const [soc] of ocv_points(engine.chemistry).slice(0, -1).reverse()) {
      const below_v = over_v(engine, soc);
      if (below_v === null) return null;
      if (below_v < 0.0) return soc + ((above - soc) * -below_v) / (above_v - below_v);
      [above, above_v] = [soc, below_v];
    }
    return 0.0;
  }

  // Straight between whole degrees, as in Cranking.charge_ratio.
  function charge_ratio(cranking, temp_c) {
    const below = Math.floor(temp_c);
    const at = (degree) => charge_to_crank({ ...cranking, temp_c: degree });
    if (below === temp_c) return at(below);
    const [low, high] = [at(below), at(below + 1)];
    if (low === null) return high;
    if (high === null) return low;
    if (low === Infinity || high === Infinity) return Infinity;
    return low + (high - low) * (temp_c - below);
  }

  // physics/battery/cold.py
  function capacity_ratio({ temp_c }) {
    if (temp_c < T.cold_capacity[0][0]) throw new OutOfRange(`${temp_c} °C: what a battery gives is not known`);
    return temp_c < WARM_C ? between(T.cold_capacity, temp_c) : 1.0;
  }

  const hardest = new Map();

  function hardest_from(cranking, degree) {
    if (degree > WARM_C) return null;
    const key = `${cranking.chemistry} ${cranking.resistance} ${cranking.crank_a} ${degree}`;
    if (!hardest.has(key)) hardest.set(key, most_of(charge_ratio(cranking, degree), hardest_from(cranking, degree + 1)));
    return hardest.get(key);
  }

  function most_of(one, other) {
    return one === null ? other : other === null ? one : Math.max(one, other);
  }

  // Cranking.hardest_ratio: the most that the engine asks for from here up to 25 °C.
  function hardest_ratio(cranking, temp_c) {
    return most_of(charge_ratio(cranking, temp_c), hardest_from(cranking, Math.ceil(temp_c)));
  }

  function floor_at(floor, temp_c, just_under = false) {
    const cold = temp_c < floor.cold_below_c || (just_under && temp_c === floor.cold_below_c) ? floor.cold_ratio : 0.0;
    const taken = 1.0 - F.reserve_warm * capacity_ratio({ temp_c });
    const crank = floor.cranking ? hardest_ratio(floor.cranking, temp_c) || 0.0 : 0.0;
    return Math.min(NEVER, Math.max(floor.warm_ratio, cold, taken, crank, floor.always_ratio));
  }

  function turns(floor, low_c, high_c) {
    const found = [[low_c, false]];
    if (high_c <= low_c) return found;
    for (const temp_c of [...T.cold_capacity.map(([point]) => point), floor.cold_below_c]) {
      if (low_c < temp_c && temp_c <= high_c) found.push([temp_c, true], [temp_c, false]);
    }
    if (floor.cranking) {
      const first = Math.floor(low_c) + 1;  // each whole degree between the two
      found.push(...Array.from({ length: Math.ceil(high_c) - first }, (_, i) => [first + i, false]));
    }
    found.push([high_c, false]);
    return found;
  }

  // physics/bank/rods_by_volts.py
  function spare_ratio(kept, { volts_v, less_v = 0.0, temp_c, battery_temp_c }) {
    const own_c = battery_temp_c === null ? WARM_C : battery_temp_c;
    const slope = F.ocv_slope;
    const spare = (at_c, just_under = false) => {
      const volts_25_v = volts_v + slope * (WARM_C - own_c - (at_c - temp_c));
      return charge_at({ volts_25_v, chemistry: kept.chemistry, less_v }) - floor_at(kept.floor, at_c, just_under);
    };
    const reach_k = Math.max(0.0, WARM_C - own_c);
    const found = turns(kept.floor, temp_c, temp_c + reach_k).map(([at_c, under]) => spare(at_c, under));
    if (reach_k > 0.0) {
      const bends = [fresh_v(kept.chemistry)];
      for (const kind of kinds_of(kept.chemistry)) for (const [, volts] of ocv_points(kind)) bends.push(volts + less_v);
      for (const bend of bends) {
        const over = (volts_v - bend) / slope + WARM_C - own_c;
        if (0.0 < over && over < reach_k) found.push(spare(temp_c + over));
      }
    }
    return Math.min(...found);
  }

  const rods_of = (spare, capacity_ah, charge_ah) =>
    Math.min(F.most_rods, Math.max(0, Math.floor((spare * capacity_ah) / charge_ah + HAIR)));

  function rods_shown(kept, charge_ah, seen) {
    if (kept.share_ratio <= 0.0) return F.most_rods;
    return rods_of(spare_ratio(kept, seen), kept.capacity_ah, charge_ah * kept.share_ratio);
  }

  function rods_by_volts(kept, { volts_v, charge_ah, way, temp_c, battery_temp_c }) {
    const less_v = doubt_v({ chemistry: kept.chemistry, way, meter_ratio: kept.meter_ratio });
    const sure = rods_shown(kept, charge_ah.high, { volts_v, less_v, temp_c, battery_temp_c });
    const likely = rods_shown(kept, charge_ah.best, { volts_v, temp_c, battery_temp_c });
    return { sure, likely: Math.max(sure, likely) };
  }

  // physics/bank/lattice.py
  const columns = new Map();

  function column(dimension) {
    if (!columns.has(dimension)) {
      const { points, generator } = F.lattice;
      let step = 1;
      for (let i = 0; i < dimension; i += 1) step = (step * generator) % points;
      columns.set(dimension, Array.from({ length: points }, (_, i) => (((i * step) % points) + 0.5) / points));
    }
    return columns.get(dimension);
  }

  class Draw {
    taken = 0;

    next() {
      this.taken += 1;
      return column(this.taken);
    }

    uniform({ low, high }) {
      const width = high - low;
      if (width === 0.0) return Array(F.lattice.points).fill(low);
      return this.next().map((q) => low + width * q);
    }

    log_uniform(given) {
      if (given.high === given.low || given.low <= 0.0) return this.uniform(given);
      const [base, ratio] = [Math.log(given.low), Math.log(given.high / given.low)];
      return this.next().map((q) => Math.exp(base + ratio * q));
    }
  }

  const around = (best, give_or_take) => span(best - give_or_take, best, best + give_or_take);

  // physics/arc/bead.py: what a practice weld teaches. Throws where its readings are nonsense.
  function learn({ rest_v, bank_v, current_a, in_series, in_parallel, holder_v }) {
    const n = in_series;
    const drop_v = rest_v - bank_v;
    const least_drop_v = n * F.activation_v.best;
    const each_ohm = (rest_v - least_drop_v - bank_v) / current_a / n;
    if (!(current_a >= 20.0 && current_a <= 600.0)) throw new OutOfRange("amps: 20 to 600 A");
    if (!(rest_v >= 10.7 * n && rest_v <= 13.5 * n)) throw new OutOfRange(`rest volts do not fit ${n} batteries`);
    if (!(bank_v < rest_v && drop_v > least_drop_v)) throw new OutOfRange("the volts hardly fell: read while the arc burns");
    if (bank_v < 7.0 * n) throw new OutOfRange("under 7 V a battery: a stuck rod, not a bead");
    if (each_ohm > 0.06) throw new OutOfRange("more ohms than a battery has: read again");
    if (holder_v !== null) {
      if (holder_v > bank_v + 0.02) throw new OutOfRange("more volts at the holder than at the bank: read again");
      if (!(holder_v >= 12.0 && holder_v <= 35.0)) throw new OutOfRange("volts at the holder: 12 to 35 V");
      if ((bank_v - holder_v) / current_a > 0.25) throw new OutOfRange("more ohms than leads have: read again");
    }
    const fall = (volts) => around(volts, F.meter_ratio * Math.abs(volts) + 0.02);
    const arc_v = holder_v === null ? bank_v : holder_v;
    return {
      current_a: around(current_a, F.clamp_meter_ratio * current_a), in_series, in_parallel,
      drop_v: around(drop_v, F.meter_ratio * drop_v + 0.02 * n),
      lead_drop_v: holder_v === null ? null : fall(bank_v - holder_v),
      arc_v: around(arc_v, F.meter_ratio * arc_v), at_holder: holder_v !== null,
    };
  }

  // physics/arc/arc.py
  function longest_of({ spare_v, loop_ohm, slope_v_per_mm, c_w, d_w_per_mm }) {
    const last = spare_v * spare_v - 4.0 * loop_ohm * c_w;
    if (spare_v <= 0.0 || last < 0.0) return 0.0;
    const square = slope_v_per_mm ** 2;
    const middle = 2.0 * slope_v_per_mm * spare_v + 4.0 * loop_ohm * d_w_per_mm;
    if (middle === 0.0) return Infinity;
    return (2.0 * last) / (middle + Math.sqrt(middle * middle - 4.0 * square * last));
  }

  function lengths_held(longest_mm) {
    const usual = F.arc_length_mm;
    const high = Math.min(usual.high, Math.round(0.7 * longest_mm * 1e12) / 1e12);
    if (!(high >= 1.0)) return [0.0, 0.0];
    return [Math.min(usual.low, Math.max(1.0, 0.2 * longest_mm)), high];
  }

  function solve({ ocv_v, loop_ohm, level_v, power_w }) {
    const spare_v = ocv_v - level_v;
    if (spare_v <= 0.0) return 0.0;
    const root = spare_v * spare_v - 4.0 * loop_ohm * power_w;
    return root >= 0.0 ? (spare_v + Math.sqrt(root)) / (2.0 * loop_ohm) : 0.0;
  }

  // physics/bank/band.py
  function current_band(rig, { cellulosic, learned }) {
    const draw = new Draw();
    const bead = learned ? bead_columns(learned, draw) : null;
    const per_ohm = conductor(rig, draw);
    const [emf_v, ohm] = source(rig, draw, bead, per_ohm);
    const external_ohm = external(rig, draw, bead, per_ohm);
    const source_ohm = ohm.map((r, i) => r + external_ohm[i]);
    return summary(meet(emf_v, source_ohm, external_ohm, draw, cellulosic, bead));
  }

  function bead_columns(learned, draw) {
    const current_a = draw.uniform(learned.current_a);
    const drop_v = draw.uniform(learned.drop_v);
    const lead_drop_v = learned.lead_drop_v ? draw.uniform(learned.lead_drop_v) : null;
    const arc_v = draw.uniform(learned.arc_v);
    return { learned, current_a, drop_v, lead_drop_v, arc_v };
  }

  function conductor(rig, draw) {
    const length = draw.uniform(F.lead_length), area = draw.uniform(F.lead_area);
    const temp_c = draw.uniform(rig.leads.temp_c), metal = draw.uniform(rig.leads.factor);
    return length.map((x, i) => (x / area[i]) * metal[i] * (1.0 + F.copper_temp * (temp_c[i] - 20.0)));
  }

  function source(rig, draw, bead, per_ohm) {
    const temp_c = draw.uniform(rig.temp_c);
    const activation_v = draw.uniform(F.activation_v);
    const shared = { temp_c, activation_v, learned_ohm: bead && ohm_each(bead, activation_v) };
    if (!bead) {
      const cold = draw.uniform(F.cold_slope), slow = draw.uniform(F.slow_share);
      shared.flat = draw.uniform(F.flat_rise);
      shared.state = cold.map((b, i) => Math.exp(-b * (temp_c[i] - WARM_C)) * (1.0 + slow[i]));
      shared.rating = rig.groups.flat().some((battery) => battery.rated) ? draw.uniform(ANY) : [];
    }
    const groups = rig.groups.map((group) => group.map((battery) => branch(battery, draw, shared)));
    const links = per_ohm.map((x) => (bead ? 0.0 : rig.link_ohm_20c * x));
    const behind = ([emf, ohm]) => [emf, ohm.map((r, i) => r + links[i])];
    return in_parallel(groups.map((group) => behind(in_series(group))));
  }

  function ohm_each(bead, activation_v) {
    const n = bead.learned.in_series, scale = bead.learned.in_parallel;
    return bead.drop_v.map((drop, i) => Math.max(LEAST_OHM, ((drop / n - activation_v[i]) / bead.current_a[i]) * scale));
  }

  function branch(battery, draw, shared) {
    const soc = draw.uniform(battery.soc_ratio);
    const rested_v = rested(battery, soc, draw);
    const emf_v = rested_v.map((v, i) => v + F.ocv_slope * (shared.temp_c[i] - WARM_C) - shared.activation_v[i]);
    if (shared.learned_ohm) return [emf_v, shared.learned_ohm];
    const fresh = battery.new_ohm, width = fresh.high - fresh.low;
    const base = battery.rated ? shared.rating.map((q) => fresh.low + width * q) : draw.uniform(fresh);
    const age = draw.uniform(battery.age_ratio);
    const first = draw.log_uniform(battery.post_joint_ohm), second = draw.log_uniform(battery.post_joint_ohm);
    return [emf_v, base.map((b, i) => b * age[i] * shared.state[i] * (1.0 + shared.flat[i] * (1.0 - soc[i])) + first[i] + second[i])];
  }

  function rested(battery, soc, draw) {
    if (battery.ocv_25_v) return draw.uniform(battery.ocv_25_v);
    const surface = { ...F.surface_v };
    if (battery.chemistry === "unknown") surface.high += CALCIUM_OVER_FLOODED_V;
    const offset = draw.uniform(surface);
    const volts = ocv_points(battery.chemistry === "unknown" ? "flooded" : battery.chemistry).map(([, v]) => v);
    const steps = volts.length - 1;
    return soc.map((q, i) => {
      const place = Math.min(Math.trunc(q * steps), steps - 1);
      return volts[place] + (volts[place + 1] - volts[place]) * (q * steps - place) + offset[i];
    });
  }

  const summed = (many) => many[0].map((_, i) => many.reduce((sum, values) => sum + values[i], 0));

  function in_series(branches) {
    if (branches.length === 1) return branches[0];
    return [summed(branches.map(([emf]) => emf)), summed(branches.map(([, ohm]) => ohm))];
  }

  function in_parallel(branches) {
    if (branches.length === 1) return branches[0];
    const conductance = summed(branches.map(([, ohm]) => ohm.map((r) => 1.0 / r)));
    const shorted_a = summed(branches.map(([emf, ohm]) => emf.map((e, i) => e / ohm[i])));
    return [shorted_a.map((i_a, i) => i_a / conductance[i]), conductance.map((g) => 1.0 / g)];
  }

  function external(rig, draw, bead, per_ohm) {
    const { leads } = rig;
    let read = bead && bead.lead_drop_v ? bead.lead_drop_v.map((drop, i) => Math.max(0.0, drop / bead.current_a[i])) : null;
    if (!read && leads.measured_ohm) read = draw.uniform(leads.measured_ohm);
    if (read) return leads.ballast_ohm ? read.map((x) => x + leads.ballast_ohm) : read;
    const ends = draw.log_uniform(leads.end_joints_ohm);
    const more = draw.log_uniform(leads.more_joints_ohm || exactly(0.0));
    return per_ohm.map((x, i) => leads.conductor_ohm_20c * x + ends[i] + more[i] + leads.ballast_ohm);
  }

  function meet(emf_v, source_ohm, external_ohm, draw, cellulosic, bead) {
    const hand = draw.uniform(ANY), slope = draw.uniform(F.arc_slope_v_per_mm);
    const rise = draw.uniform(F.arc_rise_ohm), c_w = draw.uniform(F.arc_c_w), d_w = draw.uniform(F.arc_d_w_per_mm);
    const usual = F.arc_length_mm;
    const width = (given) => Math.round((given.high - given.low) * 1e12) / 1e12;
    let foot, wander = null;
    if (bead) {
      const as_usual = c_w.map((c, i) => c + d_w[i] * (usual.low + width(usual) * hand[i]));
      const read = bead.arc_v.map((v, i) => {
        const leads = bead.learned.at_holder ? 0.0 : external_ohm[i];
        return v - (leads + rise[i]) * bead.current_a[i] - as_usual[i] / bead.current_a[i];
      });
      wander = draw.uniform(F.hand_mm);
      foot = read.map((u, i) => u - slope[i] * usual.best);
    } else {
      const base = draw.uniform(F.arc_foot_v);
      const extra = draw.uniform(cellulosic ? F.cellulosic_v : exactly(0.0));
      foot = base.map((f, i) => f + extra[i]);
    }
    return emf_v.map((e, i) => {
      const loop_ohm = source_ohm[i] + rise[i];
      const longest = longest_of({ spare_v: e - foot[i], loop_ohm, slope_v_per_mm: slope[i], c_w: c_w[i], d_w_per_mm: d_w[i] });
      const [low, high] = lengths_held(longest);
      if (high === 0.0) return 0.0;
      const length = low + (high - low) * hand[i];
      const over_mm = wander === null ? length : usual.best + (wander[i] * (high - low)) / width(usual);
      return solve({ ocv_v: e, loop_ohm, level_v: foot[i] + slope[i] * over_mm, power_w: c_w[i] + d_w[i] * length });
    });
  }

  function summary(currents) {
    const ranked = Float64Array.from(currents.filter((current) => current > 0.0)).sort();
    const count = ranked.length;
    const no_arc_ratio = 1.0 - count / currents.length;
    if (count < Math.floor(F.lattice.points / 10)) return { low_a: 0.0, middle_a: 0.0, high_a: 0.0, no_arc_ratio };
    const quantile = (share) => {
      const place = share * count - 0.5, below = Math.trunc(place);
      return ranked[below] + (ranked[below + 1] - ranked[below]) * (place - below);
    };
    return { low_a: quantile(0.1), middle_a: quantile(0.5), high_a: quantile(0.9), no_arc_ratio };
  }

  // physics/bank/verdict.py
  function judge(band, { range_low_a, range_high_a }) {
    if (band.no_arc_ratio > 0.5 || band.middle_a <= 0.0) return "no arc";
    if (band.middle_a < range_low_a || band.high_a < range_low_a) return "cold";
    if (band.middle_a <= range_high_a) return "in range";
    if (band.low_a > data.hot_limit_ratio * range_high_a) return "too hot";
    return band.middle_a <= F.warm_limit * range_high_a && band.low_a <= range_high_a ? "warm" : "hot";
  }

  // faces/pocket/answers.py: what the page answers, from what was typed into it.
  function answer({ volts, rested_h = null, bled = false, battery_temp_c = null, air_c = null, bead = null }) {
    const coldest_c = air_c === null ? data.coldest_c : Math.min(air_c, data.coldest_c);
    const batteries = data.batteries.map((battery, at) => {
      const charge = volts[at] === null ? null : state_of_charge({
        chemistry: battery.chemistry, rested_v: volts[at], rested_h, temp_c: battery_temp_c, quick_load: bled, meter_ratio: F.meter_ratio,
      });
      const engine = battery.floor.cranking;
      const starts = engine && charge ? crank_check({ ...engine, temp_c: coldest_c, soc_ratio: charge.soc_ratio }) : null;
      return { charge, starts, keeps: keeps(battery.floor, coldest_c) };
    });
    if (!data.rig) return { batteries, kinds: [] };
    return { batteries, kinds: data.kinds.map((kind) => of_kind(kind, batteries, { volts, rested_h, bled, battery_temp_c, air_c, bead }, coldest_c)) };
  }

  function keeps(floor, coldest_c) {
    try {
      return floor_at(floor, coldest_c);
    } catch (error) {
      if (error instanceof OutOfRange) return null;
      throw error;
    }
  }

  // The rods of a bank are the least over its batteries; none where it is colder than anybody knows what a battery gives.
  function rods_in_hand(kind, batteries, given, coldest_c) {
    const none = { sure: 0, likely: 0, on: "" };
    const place = kind.cold_ladder.find((step) => step.temp_c <= coldest_c);
    if (!place) return none;
    if (!place.kept.every(([at]) => batteries[at].charge && batteries[at].charge.soc_ratio)) return null;
    const rods = { sure: place.in_a_row, likely: place.in_a_row, on: "" };
    for (const [at, own] of place.kept) {
      const { chemistry, capacity_ah, floor } = data.batteries[at];
      const kept = { chemistry, capacity_ah, share_ratio: own.share_ratio, meter_ratio: F.meter_ratio, floor: { ...floor, always_ratio: own.always_ratio } };
      const read = { volts_v: given.volts[at], way: way_of(given), battery_temp_c: given.battery_temp_c };
      try {
        const seen = rods_by_volts(kept, { ...read, charge_ah: kind.charge_ah, temp_c: coldest_c });
        if (seen.sure < rods.sure) [rods.sure, rods.on] = [seen.sure, data.batteries[at].name];
        rods.likely = Math.min(rods.likely, seen.likely);
      } catch (error) {
        if (error instanceof OutOfRange) return none;
        throw error;
      }
    }
    return rods;
  }

  function of_kind(kind, batteries, given, coldest_c) {
    const rods = rods_in_hand(kind, batteries, given, coldest_c);
    const band = live_band(kind, batteries, given);
    const fit = kind.range_a ? judge(band, { range_low_a: kind.range_a[0], range_high_a: kind.range_a[1] }) : null;
    return { rods, band, fit };
  }

  const bands = new Map();

  function live_band(kind, batteries, { volts, rested_h, bled, battery_temp_c, air_c, bead }) {
    const key = JSON.stringify([kind.cellulosic, volts, rested_h, bled, battery_temp_c, air_c, bead]);
    if (!bands.has(key)) {
      const groups = data.rig.groups.map((group) => group.map((at) => {
        const own = data.batteries[at], charge = batteries[at].charge;
        const known = charge && charge.soc_ratio;
        return { ...own, soc_ratio: known ? charge.soc_ratio : F.charge_not_known, ocv_25_v: known ? charge.ocv_25_v : null };
      }));
      const rig = { ...data.rig, groups, temp_c: air_c === null ? data.rig.temp_c : exactly(air_c) };
      const shape = { in_series: data.rig.in_series, in_parallel: data.rig.in_parallel };
      bands.set(key, current_band(rig, { cellulosic: kind.cellulosic, learned: bead ? learn({ holder_v: null, ...bead, ...shape }) : null }));
    }
    return bands.get(key);
  }

  return {
    answer, learn, state_of_charge, rods_by_volts, current_band, OutOfRange,
    rested_volts, effect_of_state, least_crank_volts, charge_ratio, hardest_ratio, capacity_ratio, floor_at, spare_ratio, judge,
  };
}

// Whether this browser gives what Python gave: numbers within a billionth, rods and verdicts alike. Returns what differs.
function self_check(data) {
  const { answer } = reckoning(data);
  const wrong = [];
  const differs = (own, python) => {
    if (typeof python === "number" && typeof own === "number") return !(Math.abs(own - python) <= 1e-9 * Math.max(1.0, Math.abs(python)));
    if (python === null || own === null || typeof python !== "object") return own !== python;
    const keys = Object.keys(python);
    return typeof own !== "object" || keys.some((key) => differs(own[key] === undefined ? null : own[key], python[key]));
  };
  for (const [given, expected] of data.answers) {
    try {
      if (differs(answer(given), expected)) wrong.push(JSON.stringify(given));
    } catch (error) {
      wrong.push(`${JSON.stringify(given)}: ${error.message}`);
    }
  }
  if (data.answers.length < 36) wrong.push("too few answers to check by");
  return wrong;
}
