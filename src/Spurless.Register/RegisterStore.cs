using System.Security.Cryptography;
using System.Text;
using Microsoft.Data.Sqlite;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Paths;
using Spurless.Register.Records;
using Spurless.Register.Storage;

namespace Spurless.Register;

/// <summary>A record with where it lies from a place.</summary>
/// <param name="Record">The record.</param>
/// <param name="Line">Distance on the WGS-84 ellipsoid and bearings, from the place to the record.</param>
public readonly record struct NearRecord(RegisterRecord Record, GeodesicLine Line);

/// <summary>Answers questions from a register database. Only whole imports are seen. Dispose of it; for one thread at a time.</summary>
public sealed class RegisterStore : IDisposable
{
    private const string Columns = """
        r.id, g.name, p.latitude_e7_deg, p.longitude_e7_deg, r.transmits, r.licence, r.call_sign, r.service, r.station_class,
        r.frequency_hz,
        r.upper_edge_hz, r.emission, r.bandwidth_hz, r.eirp_dbm, r.height_m, r.ground_m, r.azimuth_deg, r.beamwidth_deg, r.notes
        """;

    private const string From = """
         FROM record AS r JOIN place AS p ON p.id = r.place_id JOIN register AS g ON g.id = r.register_id
        JOIN import AS i ON i.id = r.import_id AND i.published = 1
        """;

    private readonly SqliteConnection _connection;

    private RegisterStore(SqliteConnection connection) => _connection = connection;

    /// <summary>Opens a database for reading.</summary>
    /// <param name="path">Its file.</param>
    /// <param name="diagnostics">Takes why it cannot be opened.</param>
    /// <returns>The store, or null.</returns>
    public static RegisterStore? Open(string path, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(diagnostics);
        return RegisterDatabase.OpenToRead(path, diagnostics) is { } connection ? new RegisterStore(connection) : null;
    }

    /// <summary>Number of visible records.</summary>
    public long Count =>
        (long)RegisterDatabase.Scalar(_connection,
        "SELECT count(*) FROM record AS r JOIN import AS i ON i.id = r.import_id AND i.published = 1")!;

    /// <summary>The registers in it, by name.</summary>
    public IReadOnlyList<string> Registers()
    {
        List<string> names = [];
        using SqliteCommand command = RegisterDatabase.Command(_connection, "SELECT name FROM register ORDER BY name");
        using SqliteDataReader reader = command.ExecuteReader();
        while (reader.Read())
        {
            names.Add(reader.GetString(0));
        }

        return names;
    }

    /// <summary>Transmitters within a distance of a place, nearest first.</summary>
    /// <param name="place">The place.</param>
    /// <param name="radiusM">Distance in metres, inclusive.</param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <returns>Each with distance and bearing from the place; those nearly opposite on the earth are left out.</returns>
    public IReadOnlyList<NearRecord> Near(GeoPoint place, double radiusM, CancellationToken cancellationToken = default)
    {
        List<(RegisterRecord Record, GeodesicLine Line)> found = [];
        HashSet<long> seen = [];
        foreach ((double south, double north, double west, double east) in SearchBox.Round(place, radiusM))
        {
            using SqliteCommand command = RegisterDatabase.Command(
                _connection,
                $"SELECT {Columns} {From} JOIN place_box AS b ON b.id = p.id WHERE r.transmits = 1 AND b.max_latitude_deg >= $south AND " +
                    $"b.min_latitude_deg <= $north AND b.max_longitude_deg >= $west AND b.min_longitude_deg <= $east",
                ("$south", south),
                ("$north", north),
                ("$west", west),
                ("$east", east));
            using SqliteDataReader reader = command.ExecuteReader();
            while (reader.Read())
            {
                cancellationToken.ThrowIfCancellationRequested();
                RegisterRecord record = Read(reader);
                if (Geodesic.TryBetween(place, record.Place, out GeodesicLine line, out _) && line.DistanceM <= radiusM
                    && seen.Add(record.Id))
                {
                    found.Add((record, line));
                }
            }
        }

        Dictionary<long, int> ordinals = Ordinals(found);
        return
        [
            .. found.OrderBy(static f => f.Line.DistanceM).ThenBy(static f => f.Record.Id)
                .Select(f => new NearRecord(f.Record with { Ordinal = ordinals.GetValueOrDefault(f.Record.Id, 1) }, f.Line)),
        ];
    }

    /// <summary>All visible records, transmitters or receivers, in the order of the imports and their rows.</summary>
    public IEnumerable<RegisterRecord> All(bool transmitters)
    {
        using SqliteCommand command =
            RegisterDatabase.Command(_connection, $"SELECT {Columns} {From} WHERE r.transmits = $t ORDER BY r.id",
            ("$t", transmitters ? 1 : 0));
        using SqliteDataReader reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return Read(reader);
        }
    }

    /// <summary>A mark of what is visible that changes with every import: quick, where <see cref="ContentHash"/> goes through
    /// all.</summary>
    public string ContentMark() =>
        (string)RegisterDatabase.Scalar(_connection,
            "SELECT coalesce(group_concat(id || ':' || rows_read || ':' || fingerprint), '') FROM import WHERE published = 1")!;

    /// <summary>A hash of all that is visible, whatever the order and the number of imports it came in.</summary>
    public string ContentHash()
    {
        using IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        using SqliteCommand command = RegisterDatabase.Command(
            _connection,
            "SELECT hex(r.record_key), r.licence, r.call_sign, r.service, r.station_class, r.transmits, r.frequency_hz, r.upper_edge_hz, " +
                "r.emission, r.bandwidth_hz, r.eirp_dbm, r.height_m, r.ground_m, r.azimuth_deg, r.beamwidth_deg, r.expires, r.notes, " +
                "p.latitude_e7_deg, p.longitude_e7_deg, g.name" + From + " ORDER BY r.record_key");
        using SqliteDataReader reader = command.ExecuteReader();
        while (reader.Read())
        {
            for (int i = 0; i < reader.FieldCount; i++)
            {
                string text = reader.IsDBNull(i) ? ""
                    : Convert.ToString(reader.GetValue(i), System.Globalization.CultureInfo.InvariantCulture)!;
                hash.AppendData(Encoding.UTF8.GetBytes(text + "|"));
            }
        }

        return Convert.ToHexString(hash.GetHashAndReset());
    }

    /// <inheritdoc/>
    public void Dispose() => _connection.Dispose();

    private static RegisterRecord Read(SqliteDataReader row) => new()
    {
        Id = row.GetInt64(0),
        Register = row.GetString(1),
        Place = GeoPoint.Of(row.GetInt64(2) / 1e7, row.GetInt64(3) / 1e7),
        Transmits = row.GetInt64(4) != 0,
        Licence = row.GetString(5),
        CallSign = row.IsDBNull(6) ? null : row.GetString(6),
        Service = row.IsDBNull(7) ? null : row.GetString(7),
        StationClass = row.IsDBNull(8) ? null : row.GetString(8),
        FrequencyHz = row.GetInt64(9),
        UpperEdgeHz = row.IsDBNull(10) ? null : row.GetInt64(10),
        Emission = row.IsDBNull(11) ? null : row.GetString(11),
        BandwidthHz = row.IsDBNull(12) ? null : row.GetInt64(12),
        EirpDbm = row.IsDBNull(13) ? null : row.GetDouble(13),
        HeightM = row.IsDBNull(14) ? null : row.GetDouble(14),
        GroundM = row.IsDBNull(15) ? null : row.GetDouble(15),
        AzimuthDegrees = row.IsDBNull(16) ? null : row.GetDouble(16),
        BeamwidthDegrees = row.IsDBNull(17) ? null : row.GetDouble(17),
        Notes = (RecordNotes)row.GetInt64(18),
    };

    /// <summary>
    /// Which of several records of one name this is, counted over the whole register in the order of its rows, so that the number does
    /// not depend on
    /// how far around one looks.
    /// </summary>
    private Dictionary<long, int> Ordinals(IReadOnlyList<(RegisterRecord Record, GeodesicLine Line)> found)
    {
        Dictionary<long, int> ordinals = [];
        HashSet<(string Who, long Hertz)> asked = [];
        using SqliteCommand command = RegisterDatabase.Command(
            _connection,
            "SELECT r.id FROM record AS r JOIN import AS i ON i.id = r.import_id AND i.published = 1 WHERE coalesce(r.call_sign, " +
                "r.licence) = $who AND r.frequency_hz = $hertz AND r.transmits = 1 ORDER BY r.source_row, r.id",
            ("$who", ""),
            ("$hertz", 0L));
        foreach ((RegisterRecord record, _) in found)
        {
            string who = record.CallSign ?? record.Licence;
            if (!asked.Add((who, record.FrequencyHz)))
            {
                continue;
            }

            command.Parameters[0].Value = who;
            command.Parameters[1].Value = record.FrequencyHz;
            using SqliteDataReader reader = command.ExecuteReader();
            for (int n = 1; reader.Read(); n++)
            {
                ordinals[reader.GetInt64(0)] = n;
            }
        }

        return ordinals;
    }
}
