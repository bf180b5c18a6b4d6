-- Positions in ten-millionths of a degree on WGS-84: about a centimetre, and exact to compare.
CREATE TABLE import (
    id INTEGER PRIMARY KEY,
    fingerprint TEXT NOT NULL,
    files TEXT NOT NULL,
    published INTEGER NOT NULL DEFAULT 0,
    rows_read INTEGER NOT NULL DEFAULT 0,
    counts TEXT NOT NULL DEFAULT '',
    rejects_bytes INTEGER NOT NULL DEFAULT 0
);
CREATE TABLE register (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE
);
CREATE TABLE place (
    id INTEGER PRIMARY KEY,
    latitude_e7_deg INTEGER NOT NULL,
    longitude_e7_deg INTEGER NOT NULL,
    UNIQUE (latitude_e7_deg, longitude_e7_deg)
);
CREATE VIRTUAL TABLE place_box USING rtree(id, min_latitude_deg, max_latitude_deg, min_longitude_deg, max_longitude_deg);
CREATE TABLE record (
    id INTEGER PRIMARY KEY,
    import_id INTEGER NOT NULL REFERENCES import (id),
    register_id INTEGER NOT NULL REFERENCES register (id),
    record_key BLOB NOT NULL,
    source_row INTEGER NOT NULL,
    place_id INTEGER NOT NULL REFERENCES place (id),
    transmits INTEGER NOT NULL,
    licence TEXT NOT NULL,
    call_sign TEXT,
    service TEXT,
    station_class TEXT,
    frequency_hz INTEGER NOT NULL,
    upper_edge_hz INTEGER,
    emission TEXT,
    bandwidth_hz INTEGER,
    eirp_dbm REAL,
    height_m REAL,
    ground_m REAL,
    azimuth_deg REAL,
    beamwidth_deg REAL,
    expires TEXT,
    notes INTEGER NOT NULL
);
CREATE UNIQUE INDEX record_by_key ON record (record_key, import_id);
CREATE INDEX record_by_place ON record (place_id);
CREATE INDEX record_by_frequency ON record (frequency_hz);
-- By the name a record has in a site file: its call, or its licence where it has none.
CREATE INDEX record_by_name ON record (coalesce(call_sign, licence), frequency_hz);
-- Keys of records that an import knows to be no longer in force: they go when it is published.
CREATE TABLE withdrawn (
    import_id INTEGER NOT NULL REFERENCES import (id),
    record_key BLOB NOT NULL,
    PRIMARY KEY (import_id, record_key)
) WITHOUT ROWID;
