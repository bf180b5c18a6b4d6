using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Workbench.Bench;

/// <summary>How much a filter in front of a receiver must take from one carrier.</summary>
/// <param name="Emitter">Index of the emitter, as in <see cref="ReceiverFindings.Carriers"/>.</param>
/// <param name="Name">Its name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="NeededDb">Insertion loss needed there in dB, above 0.</param>
public sealed record CarrierNeed(int Emitter, string Name, long FrequencyHz, double NeededDb);

/// <summary>What a site needs of a filter in front of one of its receivers.</summary>
public sealed record SiteNeeds
{
    /// <summary>The receiver as it hears without any filter.</summary>
    public required ReceiverFindings Receiver { get; init; }

    /// <summary>The needs by ascending frequency; empty where nothing lands.</summary>
    public required IReadOnlyList<CarrierNeed> Needs { get; init; }

    /// <summary>How far under the noise the worst mixture shall lie, in dB.</summary>
    public required double UnderNoiseDb { get; init; }

    /// <summary>Mixtures that no filter at the receiver takes away, since they are made in a transmitter.</summary>
    public required int MadeElsewhere { get; init; }

    /// <summary>The needs of a receiver.</summary>
    /// <param name="site">The site.</param>
    /// <param name="receiver">Index of the receiver.</param>
    /// <param name="options">Limits and thresholds of the study.</param>
    /// <param name="cancellationToken">Stops the study.</param>
    /// <returns>
    /// For each carrier the greatest of its equal shares: a mixture that lies x dB over the limit (<c>MarginalFromDb</c>, 10 dB under the
    /// noise) must fall by x, and falls by |k_i| dB for each dB taken from carrier i, so every carrier of it must lose <c>x / sum
    /// |k_i|</c>. Our own transmitter on the same antenna is left out of the sum: a filter that lets the channel through lets it through.
    /// </returns>
    public static SiteNeeds Of(LoadedSite site, int receiver, StudyOptions options, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(options);
        ReceiverFindings found = StudyService.Run(site, options, null, cancellationToken).Receivers[receiver];
        return Of(found.WithoutFilter ?? found, options.MarginalFromDb);
    }

    /// <summary>The needs of what was found without a filter.</summary>
    /// <param name="findings">The findings.</param>
    /// <param name="limitDb">How a mixture shall lie over the noise at most, in dB: -10 for 10 dB under it.</param>
    public static SiteNeeds Of(ReceiverFindings findings, double limitDb)
    {
        ArgumentNullException.ThrowIfNull(findings);
        double[] needed = new double[findings.Carriers.Count];
        int elsewhere = 0;
        foreach (ProductFinding product in findings.Products)
        {
            if (product.OverNoiseDb is not { } over || over <= limitDb)
            {
                continue;
            }

            if (product.Mechanism != Mechanism.Receiver)
            {
                elsewhere++;
                continue;
            }

            Term[] others = [.. product.Terms.Where(t => findings.Carriers[t.Emitter].Follows != findings.Name)];
            double share = (over - limitDb) / Math.Max(1, others.Sum(static t => Math.Abs(t.Coefficient)));
            foreach (Term term in others)
            {
                needed[term.Emitter] = Math.Max(needed[term.Emitter], share);
            }
        }

        return new SiteNeeds
        {
            Receiver = findings,
            Needs =
            [
                .. needed.Select((db, i) => new CarrierNeed(i, findings.Carriers[i].Emitter, findings.Carriers[i].FrequencyHz, db))
                    .Where(static n => n.NeededDb > 0).OrderBy(static n => n.FrequencyHz).ThenBy(static n => n.Emitter),
            ],
            UnderNoiseDb = -limitDb,
            MadeElsewhere = elsewhere,
        };
    }
}
