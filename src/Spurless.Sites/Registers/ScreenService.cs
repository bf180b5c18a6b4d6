using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Screening;
using Spurless.Mixing.Spread;
using Spurless.Radio.Emissions;
using Spurless.Register;
using Spurless.Register.Records;

namespace Spurless.Sites.Registers;

/// <summary>One row of a screening.</summary>
/// <param name="Name">The receiver's name.</param>
/// <param name="LatitudeDegrees">Where it stands.</param>
/// <param name="LongitudeDegrees">Where it stands.</param>
/// <param name="FrequencyHz">Its frequency.</param>
/// <param name="Harmful">Harmful mixtures.</param>
/// <param name="Marginal">Marginal ones.</param>
/// <param name="WorstOverNoiseDb">The worst, over noise, in dB; null where all are under the lower threshold.</param>
/// <param name="Terms">Its emitters, each with coefficient, name and frequency.</param>
/// <param name="Unknown">Transmitters too near for any formula of paths.</param>
/// <param name="IsComplete">Whether all were counted.</param>
/// <param name="Saturated">Whether the worst is more than the receiver can make, so that its level was capped.</param>
public sealed record ScreenRow(
    string Name, double LatitudeDegrees, double LongitudeDegrees, long FrequencyHz, long Harmful, long Marginal, double? WorstOverNoiseDb,
    IReadOnlyList<(int Coefficient, string Name, long FrequencyHz)> Terms, int Unknown, bool IsComplete,
    bool Saturated);

/// <summary>Screens receivers against a register: tile by tile, going on where an earlier run was cut short.</summary>
public static class ScreenService
{
    /// <summary>Screens.</summary>
    /// <param name="question">What and whither.</param>
    /// <param name="head">First line of the result.</param>
    /// <param name="write">Writes a row as a line.</param>
    /// <param name="convert">Makes the finished lines into another kind of file; null for none.</param>
    /// <param name="diagnostics">Takes why it could not be done.</param>
    /// <param name="progress">Told how far it is, or null.</param>
    /// <param name="cancellationToken">Stops it; whole tiles stay.</param>
    /// <returns>What was done, or null.</returns>
    public static async Task<ScreenAnswer?> RunAsync(
        ScreenQuestion question,
        string head,
        Func<ScreenRow, string> write,
        Func<TextWriter, IEnumerable<string>, Task>? convert,
        DiagnosticBag diagnostics,
        IProgress<ScreenProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(write);
        ArgumentNullException.ThrowIfNull(diagnostics);
        using RegisterStore? store = RegisterStore.Open(question.Database, diagnostics);
        IReadOnlyList<NamedReceiver>? receivers = store is null
            ? null
            : question.Receivers is { } table ? ScreenReceivers.OfTable(table, diagnostics)
            : ScreenReceivers.OfRegister(store);
        if (store is null || receivers is null)
        {
            return null;
        }

        if (receivers.Count == 0)
        {
            diagnostics.Error(question.Database, 0, 0, "the register has no receivers", "give your own with --receivers FILE.csv");
            return null;
        }

        int tiles = (receivers.Count + question.TileSize - 1) / question.TileSize;
        (int first, int last) = question.Tiles ?? (1, tiles);
        if (first > tiles)
        {
            diagnostics.Error(
                question.Receivers ?? question.Database,
                0,
                0,
                FormattableString.Invariant($"there are {tiles} tiles of {question.TileSize} receivers"),
                FormattableString.Invariant($"ask for tiles 1 to {tiles}"));
            return null;
        }

        progress?.Report(new ScreenProgress("laying out the transmitters", 0));
        List<ScreenEmitter> emitters = [];
        List<RecordId> ids = [];
        foreach (RegisterRecord record in store.All(transmitters: true))
        {
            cancellationToken.ThrowIfCancellationRequested();
            emitters.Add(Emitter(record));
            ids.Add(new RecordId(record.Name, record.FrequencyHz));
        }

        Name(ids);
        ScreenField field = ScreenField.Of(emitters);
        ScreenGround? ground = question.Terrain is { } terrain ? new ScreenGround(terrain, emitters) : null;
        ScreenOptions options = new()
        {
            Ground = ground,
            Orders = question.Orders,
            WithinM = question.WithinM ?? double.PositiveInfinity,
            Threads = question.Threads,
        };
        using ScreenFile result = ScreenFile.Open(question.Out, Print(store, question, (first, last), head));
        int before = result.Tiles;
        long harmed = 0;
        long unknown = 0;
        long incomplete = 0;
        int from = (first - 1) * question.TileSize;
        int to = Math.Min(receivers.Count, last * question.TileSize);
        for (int tile = first - 1 + before; tile < Math.Min(last, tiles); tile++)
        {
            int start = tile * question.TileSize;
            NamedReceiver[] own = [.. receivers.Skip(start).Take(Math.Min(question.TileSize, to - start))];
            ScreenFinding[] found = Screen.Run(field, [.. own.Select(static r => r.Receiver)], options, null, cancellationToken);
            ScreenRow[] rows = [.. own.Select((r, i) => Row(r, found[i], emitters, ids))];
            result.Append((tile == first - 1 ? new[] { head } : []).Concat(rows.Select(write)));
            harmed += rows.LongCount(static r => r.Harmful > 0);
            unknown += rows.LongCount(static r => r.Unknown > 0);
            incomplete += rows.LongCount(static r => !r.IsComplete);
            progress?.Report(new ScreenProgress("screening", (double)(start + own.Length - from) / (to - from)));
        }

        int done = result.Tiles - before;
        await result.FinishAsync(convert).ConfigureAwait(false);
        return new ScreenAnswer
        {
            Emitters = field.Count,
            WithoutPower = field.WithoutPower,
            Receivers = to - from,
            Harmed = harmed,
            WithUnknown = unknown,
            Incomplete = incomplete,
            Ground = ground?.Sum,
            Tiles = (done, before),
            Assumed = question.Receivers is null
                ? [ScreenReceivers.Default, new ScreenAssumption.GainAlike()]
                : [new ScreenAssumption.GainAlike()],
        };
    }

    // What a file that is gone on with must have been begun with.
    private static string Print(RegisterStore store, ScreenQuestion question, (int First, int Last) tiles, string head) => string.Join(
        '|',
        store.ContentMark(),
        question.Receivers is { } file
            ? FormattableString.Invariant($"{file} {new FileInfo(file).Length} {File.GetLastWriteTimeUtc(file).Ticks}")
            : "",
        string.Join(',', question.Orders),
        question.WithinM,
        tiles.First,
        tiles.Last,
        question.TileSize,
        question.Terrain?.Stamp,
        head);

    private static ScreenEmitter Emitter(RegisterRecord record)
    {
        long width = record.UpperEdgeHz is { } upper
            ? Math.Max(record.BandwidthHz ?? 0, upper - record.FrequencyHz)
            : record.BandwidthHz ?? 16_000;
        string? kind = record.Emission is { } text && Emission.TryParse(text, out Emission emission, out _) ? emission.Class : null;
        return new ScreenEmitter
        {
            FrequencyHz = record.UpperEdgeHz is { } edge ? record.FrequencyHz + ((edge - record.FrequencyHz) / 2) : record.FrequencyHz,
            BandwidthHz = width,
            Spread = EmitterSpread.From(width, kind),
            EirpDbm = record.EirpDbm ?? double.NaN,
            Place = record.Place,
            HeightM = (float)(record.HeightM ?? double.NaN),
            GroundM = (float)(record.GroundM ?? double.NaN),
            AzimuthDegrees = (float)(record.AzimuthDegrees ?? double.NaN),
            BeamwidthDegrees = (float)(record.BeamwidthDegrees ?? double.NaN),
        };
    }

    /// <summary>Numbers the places of one licence on one frequency, as near does.</summary>
    private static void Name(List<RecordId> ids)
    {
        Dictionary<string, int> counts = new(StringComparer.Ordinal);
        for (int i = 0; i < ids.Count; i++)
        {
            int n = counts.GetValueOrDefault(ids[i].Name) + 1;
            counts[ids[i].Name] = n;
            if (n > 1)
            {
                ids[i] = ids[i] with { Name = string.Create(CultureInfo.InvariantCulture, $"{ids[i].Name} ({n})") };
            }
        }
    }

    private static ScreenRow Row(NamedReceiver receiver, ScreenFinding found, List<ScreenEmitter> emitters, List<RecordId> ids)
    {
        List<(int, string, long)> terms = [];
        for (int i = 0; found.Worst is { } worst && i < worst.Emitters.Count; i++)
        {
            int e = worst.Emitters[i];
            terms.Add((worst.Coefficients[i], ids[e].Name, emitters[e].FrequencyHz));
        }

        return new ScreenRow(
            receiver.Name, receiver.Receiver.Place.LatitudeDegrees, receiver.Receiver.Place.LongitudeDegrees, receiver.Receiver.FrequencyHz,
            found.Harmful, found.Marginal, found.Worst?.OverNoiseDb, terms, found.WithoutLevel, found.IsComplete,
            found.Worst?.Saturated ?? false);
    }

    private sealed record RecordId(string Name, long FrequencyHz);
}
