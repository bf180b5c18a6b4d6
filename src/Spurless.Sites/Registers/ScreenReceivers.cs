using System.Globalization;
using System.Text;
using Spurless.Files.Csv;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Screening;
using Spurless.Radio.Noise;
using Spurless.Radio.Paths;
using Spurless.Register;
using Spurless.Register.Records;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Levels;

namespace Spurless.Sites.Registers;

/// <summary>A receiver to screen with its name.</summary>
internal sealed record NamedReceiver(string Name, ScreenReceiver Receiver);

/// <summary>
/// Reads the receivers of a screening: a table with the keys of a receiver as heads, or a register's own receivers with stated defaults.
/// </summary>
internal static class ScreenReceivers
{
    private const int ChunkCharacters = 4_000_000;
    private static readonly string[] Own = ["name", "latitude", "longitude", "ground"];

    private const double NoiseFigureDb = 6;
    private const double Iip3Dbm = -10;

    /// <summary>What a receiver of a register is taken to be.</summary>
    public static ScreenAssumption Default => new ScreenAssumption.OfRegister(
        NoiseFigureDb, Iip3Dbm, Radio.Quantities.AntennaGain.DipoleDbi);

    /// <summary>Receivers of a table.</summary>
    public static IReadOnlyList<NamedReceiver>? OfTable(string path, DiagnosticBag diagnostics)
    {
        if (!File.Exists(path))
        {
            diagnostics.Error(
                path, 0, 0, "there is no such file", "give a table with the heads name,latitude,longitude and the keys of a receiver");
            return null;
        }

        List<NamedReceiver> all = [];
        Profiles profiles = new();
        using StreamReader reader = new(path, new UTF8Encoding(false, true));
        string? head = null;
        int line = 0;
        int before = 0;
        StringBuilder chunk = new();
        try
        {
            while (reader.ReadLine() is { } text)
            {
                line++;
                if (head is null)
                {
                    head = text.Length == 0 || text[0] == '#' ? null : text;
                    before = line;
                    continue;
                }

                chunk.Append(text).Append('\n');
                if (chunk.Length > ChunkCharacters)
                {
                    ReadChunk(head, chunk, path, before, profiles, all, diagnostics);
                    before = line;
                }
            }
        }
        catch (DecoderFallbackException)
        {
            diagnostics.Error(path, line + 1, 1, "the text is not UTF-8", "save the file as UTF-8");
        }

        if (head is not null && (chunk.Length > 0 || all.Count == 0))
        {
            ReadChunk(head, chunk, path, before, profiles, all, diagnostics);
        }

        if (all.Count == 0 && !diagnostics.HasErrors)
        {
            diagnostics.Error(path, 0, 0, "the table has no receivers", "write one row a receiver");
        }

        return diagnostics.HasErrors ? null : all;
    }

    /// <summary>Receivers of a register.</summary>
    public static IReadOnlyList<NamedReceiver> OfRegister(RegisterStore store)
    {
        Intercepts intercepts = Intercepts.Complete(Iip3Dbm, iip3Assumed: true);
        ScreenProfile profile = new([new ScreenStage(static _ => Radio.Quantities.AntennaGain.DipoleDbi, static _ => 0, intercepts)]);
        List<NamedReceiver> all = [];
        foreach (RegisterRecord record in store.All(transmitters: false))
        {
            long channel = record.BandwidthHz is <= 12_500 and > 0 ? 12_500 : 25_000;
            long bandwidth = ReceiverNoise.DefaultBandwidthHz(channel);
            all.Add(new NamedReceiver(record.Name, new ScreenReceiver
            {
                Profile = profile,
                Place = record.Place,
                FrequencyHz = record.FrequencyHz,
                ChannelHz = channel,
                IfBandwidthHz = bandwidth,
                NoiseFloorDbm = ReceiverNoise.FromNoiseFigure(NoiseFigureDb, bandwidth).NoiseDbm,
                HeightM = record.HeightM ?? double.NaN,
                GroundM = record.GroundM ?? double.NaN,
            }));
        }

        return all;
    }

    private static void ReadChunk(
        string head, StringBuilder rows, string path, int before, Profiles profiles, List<NamedReceiver> to, DiagnosticBag diagnostics)
    {
        DiagnosticBag own = new();
        CsvTable? table = CsvTable.Read(head + "\n" + rows, path, own);
        rows.Clear();
        if (table is not null)
        {
            int[] cells = [.. Own.Select(o => table.Head.ToList().FindIndex(h => h.Text == o))];
            for (int i = 0; i < 3; i++)
            {
                if (cells[i] < 0)
                {
                    own.Error(
                        path,
                        1,
                        1,
                        $"the table has no column '{Own[i]}'",
                        "write the heads name,latitude,longitude and the keys of a receiver");
                }
            }

            if (!own.HasErrors)
            {
                IReadOnlyList<YamlMapping> mappings = CsvRecords.Of(Without(table), own);
                for (int r = 0; r < mappings.Count; r++)
                {
                    if (Receiver(table, table.Rows[r], mappings[r], cells, profiles, own) is { } receiver)
                    {
                        to.Add(receiver);
                    }
                }
            }
        }

        // Lines of a later chunk count on from where it began.
        foreach (Diagnostic finding in own.InOrder())
        {
            diagnostics.Add(finding with { Line = finding.Line > 1 ? finding.Line + before - 1 : finding.Line });
        }
    }

    /// <summary>The table without the columns that are no keys of a receiver.</summary>
    private static CsvTable Without(CsvTable table)
    {
        int[] kept =
        [
            .. Enumerable.Range(0, table.Head.Count).Where(i => table.Head[i].Text is not ("latitude" or "longitude" or "ground")),
        ];
        return table.Select(kept);
    }

    private static NamedReceiver? Receiver(
        CsvTable table, CsvRow row, YamlMapping mapping, int[] cells, Profiles profiles, DiagnosticBag diagnostics)
    {
        bool latitude = TryDegrees(table, row.Cells[cells[1]], 90, diagnostics, out double lat);
        bool longitude = TryDegrees(table, row.Cells[cells[2]], 180, diagnostics, out double lon);
        double ground = double.NaN;
        if (cells[3] >= 0 && row.Cells[cells[3]] is { Text.Length: > 0 } cell)
        {
            if (Radio.Quantities.Length.TryParse(cell.Text, out Radio.Quantities.Length height, out string problem))
            {
                ground = height.Metres;
            }
            else
            {
                int cut = problem.IndexOf("; ", StringComparison.Ordinal);
                diagnostics.Error(
                    table.File,
                    cell.Line,
                    cell.Column,
                    cut < 0 ? problem : problem[..cut],
                    cut < 0 ? "write it like 410 m" : problem[(cut + 2)..]);
            }
        }

        if (!ReceiverShapes.Receiver.TryRead(mapping, diagnostics, out ReceiverEntry? entry)
            || diagnostics.HasErrors
            || !latitude
            || !longitude)
        {
            return null;
        }

        (ScreenProfile profile, ReceiveChain chain) = profiles.Of(table, row, entry);
        long bandwidth = ChainBuilder.IfBandwidthHz(entry);
        return new NamedReceiver(entry.Name, new ScreenReceiver
        {
            Profile = profile,
            Place = GeoPoint.Of(lat, lon),
            FrequencyHz = entry.Frequency.Hertz,
            ChannelHz = entry.Channel.Hertz,
            IfBandwidthHz = bandwidth,
            NoiseFloorDbm = profiles.NoiseFloorDbm(chain, entry, bandwidth),
            HeightM = entry.Antenna?.Height?.Metres ?? double.NaN,
            GroundM = ground,
        });
    }

    private static bool TryDegrees(CsvTable table, CsvCell cell, double most, DiagnosticBag diagnostics, out double value)
    {
        if (double.TryParse(cell.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && Math.Abs(value) <= most)
        {
            return true;
        }

        diagnostics.Error(
            table.File, cell.Line, cell.Column, $"'{Files.Quote.Short(cell.Text)}' is no position",
            FormattableString.Invariant($"write degrees from -{most} to {most}, north and east positive"));
        return false;
    }

    /// <summary>Chains are built once for all rows that say the same of them.</summary>
    private sealed class Profiles
    {
        private readonly Dictionary<string, (ScreenProfile Profile, ReceiveChain Chain)> _known = new(StringComparer.Ordinal);
        private readonly Dictionary<(ReceiveChain Chain, long Hertz, long Bandwidth), double> _noise = [];

        public (ScreenProfile Profile, ReceiveChain Chain) Of(CsvTable table, CsvRow row, ReceiverEntry entry)
        {
            StringBuilder key = new();
            for (int i = 0; i < row.Cells.Count; i++)
            {
                if (table.Head[i].Text is not ("name" or "latitude" or "longitude" or "ground" or "frequency" or "antenna.height"))
                {
                    key.Append(row.Cells[i].Text).Append('|');
                }
            }

            if (!_known.TryGetValue(key.ToString(), out (ScreenProfile Profile, ReceiveChain Chain) known))
            {
                (ReceiveChain chain, _) = ChainBuilder.Build(
                    entry, static _ => throw new InvalidOperationException("a table names no files"));
                double gain = entry.Antenna?.Gain?.Dbi ?? 0;
                double Antenna(double f) => gain + AntennaEffects.PointsDb(entry.Antenna, f);
                ScreenStage[] stages =
                [
                    .. chain.ActiveStages.Select(
                        (stage, s) =>
                            new ScreenStage(f => Antenna(f) + chain.GainToStageDb(s, f), f => chain.ReferralDb(s, f), stage.Intercepts)),
                ];
                known = (new ScreenProfile(stages)
                {
                    AzimuthDegrees = entry.Antenna?.Bearing ?? double.NaN,
                    BeamwidthDegrees = entry.Antenna?.Beamwidth ?? double.NaN,
                }, chain);
                _known.Add(key.ToString(), known);
            }

            return known;
        }

        public double NoiseFloorDbm(ReceiveChain chain, ReceiverEntry entry, long bandwidth)
        {
            if (!_noise.TryGetValue((chain, entry.Frequency.Hertz, bandwidth), out double noise))
            {
                noise = chain.NoiseFloorDbm(entry.Frequency.Hertz, bandwidth, entry.ExternalNoise?.OverKt0Db(entry.Frequency.Hertz));
                _noise.Add((chain, entry.Frequency.Hertz, bandwidth), noise);
            }

            return noise;
        }
    }
}
