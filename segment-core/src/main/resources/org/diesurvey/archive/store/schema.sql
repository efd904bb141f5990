-- Archive of die surveys, layout 1. Areas in mm2, pitches in um/px, lengths in mm, shares 0 to 1,
-- uncertainties are standard uncertainties (k = 1), ranges of estimates are 95 % intervals.
CREATE TABLE archive_info (name TEXT PRIMARY KEY, value TEXT NOT NULL);

-- One row for each survey: a photograph's bytes with one scale, node, model and version.
CREATE TABLE photo (
  photo_id INTEGER PRIMARY KEY,
  survey_key TEXT NOT NULL UNIQUE,
  folder TEXT NOT NULL UNIQUE,
  file_name TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  file_bytes INTEGER NOT NULL,
  format TEXT NOT NULL,
  width_px INTEGER NOT NULL,
  height_px INTEGER NOT NULL,
  node_nm REAL,
  um_per_px REAL,
  u_um_per_px REAL,
  scale_origin TEXT,
  edge_found INTEGER NOT NULL CHECK (edge_found IN (0, 1)),
  rotation_deg REAL NOT NULL,
  die_width_mm REAL,
  die_height_mm REAL,
  die_area_mm2 REAL,
  u_die_area_mm2 REAL,
  damaged_share REAL NOT NULL,
  software TEXT NOT NULL,
  software_version TEXT NOT NULL,
  model TEXT NOT NULL,
  model_sha256 TEXT NOT NULL
);

-- One row for each file that was given to a batch: what became of it, and what its owner says of it.
CREATE TABLE source (
  path TEXT PRIMARY KEY,
  file_name TEXT NOT NULL,
  survey_key TEXT NOT NULL,
  sha256 TEXT,
  outcome TEXT NOT NULL CHECK (outcome IN ('surveyed', 'rejected', 'failed')),
  reason TEXT,
  sentence TEXT,
  photo_id INTEGER REFERENCES photo(photo_id),
  die_name TEXT,
  revision TEXT,
  layer TEXT,
  notes TEXT,
  CHECK ((outcome = 'surveyed') = (photo_id IS NOT NULL))
);

CREATE TABLE region (
  photo_id INTEGER NOT NULL REFERENCES photo(photo_id),
  region TEXT NOT NULL,
  class TEXT NOT NULL,
  unclear_reason TEXT,
  area_px REAL NOT NULL,
  area_mm2 REAL,
  u_area_mm2 REAL,
  share REAL NOT NULL,
  confidence REAL NOT NULL,
  bit_cell_arrays INTEGER NOT NULL,
  bond_pads INTEGER,
  PRIMARY KEY (photo_id, region)
);

CREATE TABLE class_total (
  photo_id INTEGER NOT NULL REFERENCES photo(photo_id),
  class TEXT NOT NULL,
  unclear_reason TEXT NOT NULL DEFAULT '',
  regions INTEGER NOT NULL,
  area_mm2 REAL,
  u_area_mm2 REAL,
  share REAL NOT NULL,
  PRIMARY KEY (photo_id, class, unclear_reason)
);

CREATE TABLE estimate (
  photo_id INTEGER NOT NULL REFERENCES photo(photo_id),
  amount TEXT NOT NULL,
  value REAL NOT NULL,
  low REAL NOT NULL,
  high REAL NOT NULL,
  origin TEXT NOT NULL,
  PRIMARY KEY (photo_id, amount)
);

CREATE TABLE notice (
  photo_id INTEGER NOT NULL REFERENCES photo(photo_id),
  notice TEXT NOT NULL,
  sentence TEXT NOT NULL,
  remedy TEXT NOT NULL
);
CREATE INDEX notice_photo ON notice(photo_id);

CREATE TABLE file (
  photo_id INTEGER NOT NULL REFERENCES photo(photo_id),
  name TEXT NOT NULL,
  bytes INTEGER NOT NULL,
  sha256 TEXT NOT NULL,
  PRIMARY KEY (photo_id, name)
);

-- One row for each file given that has a survey, with the shares side by side.
CREATE VIEW surveyed_photo AS
SELECT s.path, s.file_name, s.die_name, s.revision, s.layer, s.notes, p.photo_id,
  p.survey_key, p.folder, p.sha256, p.file_bytes, p.format, p.width_px, p.height_px, p.node_nm, p.um_per_px, p.u_um_per_px, p.scale_origin,
  p.edge_found, p.rotation_deg, p.die_width_mm, p.die_height_mm, p.die_area_mm2, p.u_die_area_mm2, p.damaged_share, p.software, p.software_version, p.model, p.model_sha256,
  coalesce((SELECT sum(share) FROM class_total t WHERE t.photo_id = p.photo_id AND class = 'memory array'), 0) AS memory_share,
  coalesce((SELECT sum(share) FROM class_total t WHERE t.photo_id = p.photo_id AND class = 'hard macro'), 0) AS macro_share,
  coalesce((SELECT sum(share) FROM class_total t WHERE t.photo_id = p.photo_id AND class = 'logic'), 0) AS logic_share,
  coalesce((SELECT sum(share) FROM class_total t WHERE t.photo_id = p.photo_id AND class = 'pad ring'), 0) AS pad_ring_share,
  coalesce((SELECT sum(share) FROM class_total t WHERE t.photo_id = p.photo_id AND class = 'unclear'), 0) AS unclear_share,
  (SELECT sum(area_mm2) FROM class_total t WHERE t.photo_id = p.photo_id AND class = 'memory array') AS memory_area_mm2,
  (SELECT count(*) FROM region r WHERE r.photo_id = p.photo_id AND class <> 'unclear') AS regions,
  (SELECT min(confidence) FROM region r WHERE r.photo_id = p.photo_id AND class <> 'unclear') AS lowest_confidence,
  (SELECT count(*) FROM notice n WHERE n.photo_id = p.photo_id) AS warnings,
  (SELECT value FROM estimate e WHERE e.photo_id = p.photo_id AND amount = 'bits') AS bits,
  (SELECT value FROM estimate e WHERE e.photo_id = p.photo_id AND amount = 'nand2_equivalents') AS nand2_equivalents
FROM source s JOIN photo p ON p.photo_id = s.photo_id;

-- One row for each die revision that has a name.
CREATE VIEW die AS
SELECT die_name, coalesce(revision, '') AS revision, count(*) AS photos,
  avg(die_area_mm2) AS mean_die_area_mm2, avg(memory_share) AS mean_memory_share,
  avg(macro_share) AS mean_macro_share, avg(logic_share) AS mean_logic_share,
  avg(pad_ring_share) AS mean_pad_ring_share
FROM surveyed_photo WHERE die_name IS NOT NULL GROUP BY die_name, coalesce(revision, '');

-- Files without a survey, with the reason.
CREATE VIEW not_surveyed AS
SELECT path, outcome, reason, sentence, die_name, revision FROM source WHERE outcome <> 'surveyed';
