using Microsoft.Data.Sqlite;
using Spurless.Register.Layouts;
using Spurless.Register.Storage;

namespace Spurless.Register.Importing;

/// <summary>Writes records into the database by prepared statements; places are kept once.</summary>
internal sealed class RecordWriter : IDisposable
{
    private const string Columns =
        "import_id, register_id, record_key, source_row, place_id, transmits, licence, call_sign, service, station_class, frequency_hz, " +
            "upper_edge_hz, emission, bandwidth_hz, eirp_dbm, height_m, ground_m, azimuth_deg, beamwidth_deg, expires, notes";

    private readonly SqliteConnection _connection;
    private readonly Dictionary<(long Latitude, long Longitude), long> _places = [];
    private readonly Dictionary<string, long> _registers = new(StringComparer.Ordinal);
    private readonly SqliteCommand _insert;
    private readonly SqliteCommand _place;
    private readonly SqliteCommand _box;
    private readonly SqliteCommand _withdraw;
    private readonly long _import;

    public RecordWriter(SqliteConnection connection, long import)
    {
        (_connection, _import) = (connection, import);
        string[] names = Columns.Split(", ");
        _insert = Prepare($"INSERT OR IGNORE INTO record ({Columns}) VALUES ({string.Join(", ", names.Select(static n => "$" + n))})",
            names);
        _place = Prepare("INSERT INTO place (latitude_e7_deg, longitude_e7_deg) VALUES ($a, $b) RETURNING id", "a", "b");
        _box = Prepare("INSERT INTO place_box VALUES ($id, $a, $a, $b, $b)", "id", "a", "b");
        _withdraw = Prepare("INSERT OR IGNORE INTO withdrawn VALUES ($import, $key)", "import", "key");
        using SqliteCommand known = RegisterDatabase.Command(connection, "SELECT id, latitude_e7_deg, longitude_e7_deg FROM place");
        using SqliteDataReader reader = known.ExecuteReader();
        while (reader.Read())
        {
            _places.Add((reader.GetInt64(1), reader.GetInt64(2)), reader.GetInt64(0));
        }
    }

    /// <summary>Joins the commands to a transaction.</summary>
    public void Begin(SqliteTransaction transaction)
    {
        _insert.Transaction = transaction;
        _place.Transaction = transaction;
        _box.Transaction = transaction;
        _withdraw.Transaction = transaction;
    }

    /// <summary>Writes a record; false where this import has it already.</summary>
    public bool Add(ParsedRecord record, long row)
    {
        SqliteParameterCollection to = _insert.Parameters;
        to[0].Value = _import;
        to[1].Value = RegisterId(record.Register);
        to[2].Value = record.Key;
        to[3].Value = row;
        to[4].Value = PlaceId(record.LatitudeDegrees!.Value, record.LongitudeDegrees!.Value);
        to[5].Value = record.Transmits ? 1L : 0L;
        to[6].Value = record.Licence;
        to[7].Value = Or(record.CallSign);
        to[8].Value = Or(record.Service);
        to[9].Value = Or(record.StationClass);
        to[10].Value = record.FrequencyHz;
        to[11].Value = Or(record.UpperEdgeHz);
        to[12].Value = Or(record.Emission);
        to[13].Value = Or(record.BandwidthHz);
        to[14].Value = Or(record.EirpDbm);
        to[15].Value = Or(record.HeightM);
        to[16].Value = Or(record.GroundM);
        to[17].Value = Or(record.AzimuthDegrees);
        to[18].Value = Or(record.BeamwidthDegrees);
        to[19].Value = record.Expires is { } day ? day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)
            : DBNull.Value;
        to[20].Value = (long)record.Notes;
        return _insert.ExecuteNonQuery() > 0;
    }

    /// <summary>Notes that a record is no longer in force.</summary>
    public void Withdraw(ParsedRecord record)
    {
        _withdraw.Parameters[0].Value = _import;
        _withdraw.Parameters[1].Value = record.Key;
        _withdraw.ExecuteNonQuery();
    }

    public void Dispose()
    {
        _insert.Dispose();
        _place.Dispose();
        _box.Dispose();
        _withdraw.Dispose();
    }

    private static object Or<T>(T? value)
        where T : struct => value is { } given ? given : DBNull.Value;

    private static object Or(string? value) => value is null ? DBNull.Value : value;

    private SqliteCommand Prepare(string sql, params string[] parameters)
    {
        SqliteCommand command = RegisterDatabase.Command(_connection, sql);
        foreach (string name in parameters)
        {
            command.Parameters.Add(new SqliteParameter("$" + name, null));
        }

        return command;
    }

    private long RegisterId(string name)
    {
        if (!_registers.TryGetValue(name, out long id))
        {
            using SqliteCommand insert =
                RegisterDatabase.Command(_connection, "INSERT OR IGNORE INTO register (name) VALUES ($name)", ("$name", name));
            insert.Transaction = _insert.Transaction;
            insert.ExecuteNonQuery();
            using SqliteCommand find = RegisterDatabase.Command(_connection, "SELECT id FROM register WHERE name = $name", ("$name", name));
            find.Transaction = _insert.Transaction;
            _registers.Add(name, id = (long)find.ExecuteScalar()!);
        }

        return id;
    }

    private long PlaceId(double latitude, double longitude)
    {
        (long Latitude, long Longitude) key = ((long)Math.Round(latitude * 1e7), (long)Math.Round(longitude * 1e7));
        if (!_places.TryGetValue(key, out long id))
        {
            _place.Parameters[0].Value = key.Latitude;
            _place.Parameters[1].Value = key.Longitude;
            id = (long)_place.ExecuteScalar()!;
            _box.Parameters[0].Value = id;
            _box.Parameters[1].Value = key.Latitude / 1e7;
            _box.Parameters[2].Value = key.Longitude / 1e7;
            _box.ExecuteNonQuery();
            _places.Add(key, id);
        }

        return id;
    }
}
