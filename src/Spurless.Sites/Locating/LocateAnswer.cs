using Spurless.Mixing.Evidence;
using Spurless.Sites.Documents;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Locating;

/// <summary>What the evidence of a site says.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Study">The study that says what it could be.</param>
/// <param name="Receivers">One entry per receiver, in the order of the site file.</param>
public sealed record LocateAnswer(LocateQuestion Question, StudyResult Study, IReadOnlyList<LocatedReceiver> Receivers);

/// <summary>What the evidence says of one receiver.</summary>
public sealed record LocatedReceiver
{
    private readonly Lazy<Dictionary<ProductRow, double>> _ofRow;

    /// <summary>Made by the service.</summary>
    public LocatedReceiver() => _ofRow = new Lazy<Dictionary<ProductRow, double>>(ByRow);

    /// <summary>What the study found on it.</summary>
    public required ReceiverFindings Findings { get; init; }

    /// <summary>
    /// One finding of each product that could be it, in the order of the study; the index is that of
    /// <see cref="EvidenceCase.Products"/>.
    /// </summary>
    public required IReadOnlyList<ProductFinding> Products { get; init; }

    /// <summary>How many more there are than are weighed.</summary>
    public required int ProductsLeftOut { get; init; }

    /// <summary>Every hypothesis weighed.</summary>
    public required WeighedEvidence Weighed { get; init; }

    /// <summary>By observation: the entry of the site file that it comes from; of logs the first.</summary>
    public required IReadOnlyList<EvidenceEntry> Entries { get; init; }

    /// <summary>The rows behind the moments of the logs; empty without one.</summary>
    public required LoggedRows Logged { get; init; }

    /// <summary>Hypotheses by index, the likeliest first; of equal ones in the order of the study.</summary>
    public required IReadOnlyList<int> Ranked { get; init; }

    /// <summary>What it would be best to look at next, best first, no two of one kind; empty where nothing would tell more.</summary>
    public required IReadOnlyList<Advice> Next { get; init; }

    /// <summary>The reading over noise that <see cref="Next"/> starts from, in dB.</summary>
    public required double OverNoiseDb { get; init; }

    /// <summary>Whether <see cref="OverNoiseDb"/> was read; else it is predicted or assumed.</summary>
    public required bool OverNoiseRead { get; init; }

    /// <summary>What does not fit.</summary>
    public required IReadOnlyList<Misfit> Misfits { get; init; }

    /// <summary>Moments of the log that speak most for the likeliest product and against others: indices of rows.</summary>
    public required IReadOnlyList<int> Deciding { get; init; }

    /// <summary>Emitters that the log rules out as the sole source, by what it shows of each, the clearest first.</summary>
    public required IReadOnlyList<(int Emitter, LogCounts Counts)> RuledOut { get; init; }

    /// <summary>The filters that advice can name, by their index there.</summary>
    public required IReadOnlyList<string> Filters { get; init; }

    /// <summary>Whether anything was observed on it.</summary>
    public bool HasEvidence => Weighed.Clues.Count > 0;

    /// <summary>The places of making, likeliest first: something else and outside stand among them.</summary>
    public IReadOnlyList<PlaceShare> Places
    {
        get
        {
            List<PlaceShare> all =
            [
                .. Weighed.Hypotheses.Where(static h => h.Place is MakingPlace.Receiver or MakingPlace.Transmitter)
                    .Select(static h => (h.Place, h.Index)).Distinct()
                    .Select(p => Share(p.Place, p.Index)),
                Share(MakingPlace.Outside, null),
                Share(MakingPlace.Other, null),
            ];
            return [.. all.Where(static p => p.Prior > 0).OrderByDescending(static p => p.Probability)];
        }
    }

    /// <summary>Names of all emitters, those of the likeliest products first.</summary>
    public IReadOnlyList<string> EmittersLikeliestFirst =>
    [
        .. Ranked.Select(h => Weighed.Hypotheses[h].Product).Where(static p => p >= 0).SelectMany(p => Products[p].Terms)
            .Select(static t => t.Name).Concat(Findings.Carriers.Select(static c => c.Emitter)).Distinct(StringComparer.Ordinal),
    ];

    /// <summary>Name of the stage or emitter that makes it; null outside and for something else.</summary>
    /// <param name="place">The kind of place.</param>
    /// <param name="index">The stage or emitter.</param>
    public string? NameOf(MakingPlace place, int index) => place switch
    {
        MakingPlace.Receiver => Findings.Chain.ActiveStages[index].Name,
        MakingPlace.Transmitter => Findings.Carriers[index].Emitter,
        _ => null,
    };

    /// <summary>Probability that what is heard is one row of the study: a product made by the receiver, or by that transmitter.</summary>
    /// <param name="row">The row.</param>
    /// <returns>0 to 1; null where the product was not weighed.</returns>
    public double? Of(ProductFinding row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return _ofRow.Value.TryGetValue(row.Row, out double probability) ? probability : null;
    }

    private Dictionary<ProductRow, double> ByRow()
    {
        Dictionary<ProductRow, double> all = [];
        for (int h = 0; h < Weighed.Hypotheses.Count; h++)
        {
            Hypothesis hypothesis = Weighed.Hypotheses[h];
            if (hypothesis.Product >= 0 && hypothesis.Place != MakingPlace.Outside)
            {
                ProductRow row = new(
                    Products[hypothesis.Product].Identity,
                    hypothesis.Place == MakingPlace.Transmitter ? NameOf(hypothesis.Place, hypothesis.Index) : null);
                all[row] = all.GetValueOrDefault(row) + Weighed.Posterior[h];
            }
        }

        return all;
    }

    private PlaceShare Share(MakingPlace place, int? index) => new(
        place, index is { } i ? NameOf(place, i) : null, index ?? -1, Weighed.PriorOfPlace(place, index), Weighed.OfPlace(place, index));
}

/// <summary>How likely a place makes what is heard, whatever the product.</summary>
/// <param name="Place">The kind of place.</param>
/// <param name="Name">The stage or emitter; null outside and for something else.</param>
/// <param name="Index">Index of the stage or emitter; -1 outside and for something else.</param>
/// <param name="Prior">Its probability before any evidence.</param>
/// <param name="Probability">Its probability now.</param>
public sealed record PlaceShare(MakingPlace Place, string? Name, int Index, double Prior, double Probability);
