-- Views for reading the file with other tools; DEVELOPERS.md describes their columns.
-- `quantity` is exact (an integer of the quantum); `amount` is the same in `unit`, for reading and adding up by eye.

CREATE VIEW unit_of AS
SELECT 'mass' AS dimension, 'g' AS unit, 1000000 AS quanta
UNION ALL SELECT 'volume', 'mL', 1000
UNION ALL SELECT 'area', 'cm2', 100
UNION ALL SELECT 'length', 'mm', 1000
UNION ALL SELECT 'pieces', 'pieces', 1000
UNION ALL SELECT 'uses', 'uses', 1000;

CREATE VIEW on_hand AS
SELECT
    lot.code AS lot,
    material.key AS material,
    coalesce(waste_can.title, material.name) AS name,
    lot.kind AS kind,
    place.name AS place,
    balance.quantity AS quantity,
    1.0 * balance.quantity / unit_of.quanta AS amount,
    unit_of.unit AS unit,
    balance.value AS value_minor,
    currency.value AS currency,
    lot.cost_known AS cost_known,
    lot.strength AS strength,
    lot.maker_lot AS maker_lot,
    lot.received_on AS received_on,
    lot.made_at AS made_at,
    lot.opened_on AS opened_on,
    lot.use_by AS use_by,
    lot.check_by AS check_by,
    lot.ready_on AS ready_on,
    lot.state AS state,
    lot.unfit AS unfit
FROM lot
JOIN material ON material.id = lot.material_id
JOIN unit_of ON unit_of.dimension = material.dimension
JOIN balance ON balance.lot_id = lot.id
JOIN setting AS currency ON currency.name = 'currency'
LEFT JOIN place ON place.id = lot.place_id
LEFT JOIN waste_can ON waste_can.lot_id = lot.id
WHERE lot.state <> 'ended';

CREATE VIEW job_costs AS
SELECT
    job.code AS job,
    job.title AS title,
    job.client AS client,
    job.state AS state,
    material.key AS material,
    material.name AS name,
    lot.code AS lot,
    -sum(entry.quantity) AS quantity,
    -1.0 * sum(entry.quantity) / unit_of.quanta AS amount,
    unit_of.unit AS unit,
    -sum(entry.value) AS value_minor,
    currency.value AS currency,
    lot.cost_known AS cost_known
FROM entry
JOIN job ON job.id = entry.job_id
JOIN lot ON lot.id = entry.lot_id
JOIN material ON material.id = lot.material_id
JOIN unit_of ON unit_of.dimension = material.dimension
JOIN setting AS currency ON currency.name = 'currency'
GROUP BY job.code, job.title, job.client, job.state, material.key, material.name, lot.code, unit_of.quanta,
    unit_of.unit, currency.value, lot.cost_known
HAVING sum(entry.quantity) <> 0 OR sum(entry.value) <> 0;

CREATE VIEW lot_history AS
SELECT
    lot.code AS lot,
    material.key AS material,
    action.code AS action,
    action.kind AS kind,
    action.day AS day,
    action.at AS at,
    action.booked_at AS booked_at,
    action.initials AS initials,
    action.reason AS reason,
    job.code AS job,
    coalesce(moved.quantity, 0) AS quantity,
    1.0 * coalesce(moved.quantity, 0) / unit_of.quanta AS amount,
    unit_of.unit AS unit,
    coalesce(moved.value, 0) AS value_minor,
    currency.value AS currency,
    CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect
FROM (
    SELECT action_number, lot_id FROM entry
    UNION SELECT action_number, lot_id FROM fact
    UNION SELECT action_number, lot_id FROM counted
    UNION SELECT action_number, lot_id FROM jar_check
    UNION SELECT begun_by, id FROM lot
) AS touched
JOIN action ON action.number = touched.action_number
JOIN lot ON lot.id = touched.lot_id
JOIN material ON material.id = lot.material_id
JOIN unit_of ON unit_of.dimension = material.dimension
JOIN setting AS currency ON currency.name = 'currency'
LEFT JOIN job ON job.id = action.job_id
LEFT JOIN undone ON undone.action_number = action.number
LEFT JOIN (
    SELECT action_number, lot_id, sum(quantity) AS quantity, sum(value) AS value
    FROM entry GROUP BY action_number, lot_id
) AS moved ON moved.action_number = touched.action_number AND moved.lot_id = touched.lot_id;

CREATE VIEW checks AS
SELECT
    lot.code AS lot,
    material.key AS material,
    material.name AS name,
    action.code AS action,
    action.day AS day,
    action.at AS at,
    action.initials AS initials,
    jar_check.method AS method,
    jar_check.readings AS readings,
    json_extract(action.details, '$.strength.low') AS strength_low,
    json_extract(action.details, '$.strength.best') AS strength_best,
    json_extract(action.details, '$.strength.high') AS strength_high,
    json_extract(action.details, '$.strength.unit') AS strength_unit,
    jar_check.verdict AS verdict,
    jar_check.why AS why,
    CASE WHEN undone.action_number IS NULL THEN 'yes' ELSE 'no' END AS in_effect
FROM jar_check
JOIN action ON action.number = jar_check.action_number
JOIN lot ON lot.id = jar_check.lot_id
JOIN material ON material.id = lot.material_id
LEFT JOIN undone ON undone.action_number = action.number;
