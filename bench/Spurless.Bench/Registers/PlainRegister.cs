using System.Globalization;
using System.Text;
using Microsoft.Data.Sqlite;
using Spurless.Mixing.Screening;
using Spurless.Radio.Paths;
using Spurless.Register;

namespace Spurless.Bench.Registers;

/// <summary>The plain ways that the rows 'Register' are held against.</summary>
internal static class PlainRegister
{
    /// <summary>
    /// The least that an import into such a database does: every line of all files read and cut at its bars, each frequency row put into
    /// one bare table, in one transaction, without an index, without a look at what the other files say of it.
    /// </summary>
    /// <returns>Rows put in.</returns>
    public static long Import(string folder, string database)
    {
        using SqliteConnection connection = new($"Data Source={database};Pooling=False");
        connection.Open();
        Run(connection, "PRAGMA journal_mode = WAL; PRAGMA synchronous = NORMAL;");
        Run(connection, "CREATE TABLE bare (system, call_sign, place, class, mhz, watts)");
        using SqliteTransaction transaction = connection.BeginTransaction();
        using SqliteCommand insert = connection.CreateCommand();
        insert.CommandText = "INSERT INTO bare VALUES ($0, $1, $2, $3, $4, $5)";
        insert.Transaction = transaction;
        SqliteParameter[] to = [.. Enumerable.Range(0, 6).Select(static i => new SqliteParameter("$" + i, null))];
        insert.Parameters.AddRange(to);
        long rows = 0;
        foreach (string path in Directory.GetFiles(folder, "*.dat").Order(StringComparer.Ordinal))
        {
            using StreamReader reader = new(path, Encoding.Latin1, false, 1 << 16);
            while (reader.ReadLine() is { } line)
            {
                string[] cells = line.Split('|');
                if (cells[0] != "FR")
                {
                    continue;
                }

                (to[0].Value, to[1].Value, to[2].Value, to[3].Value) = (cells[1], cells[4], cells[6], cells[8]);
                (to[4].Value, to[5].Value) = (Number(cells[10]), Number(cells[16]));
                insert.ExecuteNonQuery();
                rows++;
            }
        }

        transaction.Commit();
        return rows;
    }

    /// <summary>Near by brute force: every record read, and its distance taken.</summary>
    public static int Near(RegisterStore store, GeoPoint place, double radiusM) => store.All(transmitters: true)
        .Count(r => Geodesic.TryBetween(place, r.Place, out GeodesicLine line, out _) && line.DistanceM <= radiusM);

    /// <summary>
    /// The levels of all emitters at one receiver in free space, and how many of them it hears: no mixture is formed yet. What any
    /// screening without an order of the emitters does first, for each receiver.
    /// </summary>
    public static int Heard(IReadOnlyList<ScreenEmitter> emitters, ScreenReceiver receiver)
    {
        (double lat, double lon) = (receiver.Place.LatitudeDegrees * Math.PI / 180, receiver.Place.LongitudeDegrees * Math.PI / 180);
        (double sin, double cos) = Math.SinCos(lat);
        int heard = 0;
        for (int i = 0; i < emitters.Count; i++)
        {
            ScreenEmitter e = emitters[i];
            (double otherSin, double otherCos) = Math.SinCos(e.Place.LatitudeDegrees * Math.PI / 180);
            double cosine = (sin * otherSin) + (cos * otherCos * Math.Cos(lon - (e.Place.LongitudeDegrees * Math.PI / 180)));
            double metres = 6_371_008.8 * Math.Acos(Math.Clamp(cosine, -1, 1));
            double loss = 20 * Math.Log10(4 * Math.PI * Math.Max(1, metres) * e.FrequencyHz / 299_792_458);
            heard += e.EirpDbm - loss > receiver.NoiseFloorDbm ? 1 : 0;
        }

        return heard;
    }

    private static double Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value) ? value : 0;

    private static void Run(SqliteConnection connection, string sql)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // Every text comes from this file.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
