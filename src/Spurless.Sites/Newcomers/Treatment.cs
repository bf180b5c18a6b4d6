using System.Collections.Immutable;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Newcomers;

/// <summary>What is put into the model to see whether a receiver then passes: figures in dB, by emitter.</summary>
internal sealed record Treatment
{
    private static readonly ImmutableDictionary<string, double> _nothing =
        ImmutableDictionary.Create<string, double>(StringComparer.Ordinal);

    /// <summary>Nothing.</summary>
    public static Treatment None { get; } = new();

    private ImmutableDictionary<string, double> Carrier { get; init; } = _nothing;

    private ImmutableDictionary<string, double> Isolator { get; init; } = _nothing;

    private ImmutableDictionary<string, double> Output { get; init; } = _nothing;

    private ImmutableDictionary<string, double> Path { get; init; } = _nothing;

    /// <summary>The same with some more of one kind at each of some emitters.</summary>
    public Treatment With(NewcomerNeedKind kind, IEnumerable<string> emitters, double db)
    {
        Dictionary<string, double> more = emitters.ToDictionary(static e => e, _ => db, StringComparer.Ordinal);
        return kind switch
        {
            NewcomerNeedKind.CarrierAttenuation => this with { Carrier = Carrier.SetItems(more) },
            NewcomerNeedKind.Isolator => this with { Isolator = Isolator.SetItems(more) },
            NewcomerNeedKind.OutputFilter => this with { Output = Output.SetItems(more) },
            _ => this with { Path = Path.SetItems(more) },
        };
    }

    /// <summary>By how much an emitter is weaker at the receiver.</summary>
    public SignalFall FallOf(string emitter)
    {
        double path = Path.GetValueOrDefault(emitter);
        return new SignalFall(Carrier.GetValueOrDefault(emitter) + path, Output.GetValueOrDefault(emitter) + path);
    }

    /// <summary>A site with the isolators put in.</summary>
    public LoadedSite In(LoadedSite site) => Isolator.IsEmpty ? site : site with
    {
        Document = site.Document with
        {
            Emitters = [.. site.Document.Emitters.Select(e => Isolator.TryGetValue(e.Name, out double db) ? Isolated(e, db) : e)],
        },
    };

    private static EmitterEntry Isolated(EmitterEntry emitter, double db) => emitter with
    {
        Isolator = emitter.Isolator switch
        {
            { Everywhere: null, Points: var points } =>
                new IsolatorEntry(null, [.. points.Select(p => p with { Value = Decibels.FromDecibels(p.Value.Value + db) })]),
            var one => new IsolatorEntry(Decibels.FromDecibels((one?.Everywhere?.Value ?? 0) + db), []),
        },
    };
}
