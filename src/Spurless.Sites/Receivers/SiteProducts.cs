using Spurless.Files.Yaml;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Measurements;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Receivers;

/// <summary>
/// Makes a reading of an identified mixture at a site: levels, share in the channel and noise are those of the site's study.
/// </summary>
internal sealed class SiteProducts(ReceiverQuestion question, FrontEndLosses losses, ReadingSources sources, List<ReceiverWarning> warnings)
{
    private const double SmallShareDb = -35;

    public InterceptReading? Of(SiteProductReading entry, CancellationToken cancellationToken)
    {
        LoadedSite site = question.Measurements.Sites[entry.Site.Path];
        int order = entry.Terms.Sum(static t => Math.Abs(t.Value));
        StudyOptions options = new()
        {
            FloorDbm = double.NegativeInfinity,
            Orders = (order, order),
            Signals = entry.Terms.Count,
        };
        Outcome<StudyResult> outcome = StudyService.Ask(
            new StudyQuestion { Site = Reduced(site, entry), Options = options }, null, cancellationToken);
        ReceiverFindings? findings = outcome.Answer?.Receivers[0];
        ProductFinding? product = findings?.Products.FirstOrDefault(p => p.Mechanism == Mechanism.Receiver && Is(p, entry));
        if (findings is null || product is null)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.NotPredicted) { Entry = entry, Name = outcome.Problem });
            return null;
        }

        if (product is not { LevelDbm: { } level, InChannelLevelDbm: { } inChannel })
        {
            Term unknown = product.Terms.First(t => findings.Carriers[t.Emitter].LevelAtReceiverDbm is null);
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.LevelUnknown) { Entry = entry, Name = unknown.Name });
            return null;
        }

        return Reading(entry, site.Document, findings, product, inChannel - level);
    }

    private InterceptReading Reading(
        SiteProductReading entry, SiteDocument site, ReceiverFindings findings, ProductFinding product, double shareDb)
    {
        int stage = findings.Chain.ActiveStages.Count - 1;
        ReceiverEntry receiver = site.Receivers.First(r => r.Name == entry.Receiver);
        bool selective = receiver.Selectivity is not null;

        // The receiver's own selectivity: none where the site states none, and then the tones stand at its input.
        double onChannel = findings.Chain.ReferralDb(stage, findings.FrequencyHz);
        MeasuredFigure common = MeasuredFigure.Read(0, sources.Next(), receiver.CommonUncertainty?.Value ?? 0);
        List<MeasuredFigure> levels = [];
        double noiseLike = 0;
        foreach (Term term in product.Terms)
        {
            CarrierFinding carrier = findings.Carriers[term.Emitter];
            levels.Add(MeasuredFigure.Read(carrier.LevelAtReceiverDbm!.Value, sources.Next(), carrier.SigmaDb ?? 0)
                .Plus(common).Plus(onChannel));
            if (site.Emitters.First(e => e.Name == term.Name).NoiseLike)
            {
                noiseLike += 10 * Math.Log10(Multinomial.Factorial(Math.Abs(term.Coefficient)));
            }
        }

        MeasuredFigure over = NoiseTakenOut.SignalOverNoise(MeasuredFigure.Read(entry.OverNoise.Value, sources.Next(), entry.SigmaDb));
        double referral = findings.Chain.ReferralDb(stage, product.FrequencyHz);
        InterceptReading reading = new()
        {
            Entry = entry,
            Coefficients = [.. product.Terms.Select(static t => t.Coefficient)],
            TonesHz = [.. product.Terms.Select(static t => t.FrequencyHz)],
            Levels = levels,
            Product = over.Plus(findings.NoiseFloorDbm - shareDb - referral + onChannel - noiseLike),
            Losses = [.. product.Terms.Select(t => selective ? MeasuredFigure.Exact(0) : losses.Of(t.FrequencyHz))],
            ShareDb = shareDb,
        };
        if (findings.Chain.ActiveStages.Count > 1)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.AmplifierInFront)
            {
                Entry = entry,
                Name = findings.Chain.ActiveStages[0].Name,
            });
        }

        if (shareDb < SmallShareDb)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.SmallShare) { Entry = entry, Value = shareDb });
        }

        return reading;
    }

    /// <summary>
    /// The site with that receiver and the mixture's emitters alone: the reading says that they were on together, whatever the file says
    /// of who excludes whom, and nothing else is asked for.
    /// </summary>
    private static LoadedSite Reduced(LoadedSite site, SiteProductReading entry)
    {
        HashSet<string> names = [.. entry.Terms.Select(static t => t.Name)];
        return site with
        {
            Document = site.Document with
            {
                Receivers = [site.Document.Receivers.First(r => r.Name == entry.Receiver)],
                Emitters =
                [
                    .. site.Document.Emitters.Where(e => names.Contains(e.Name)).Select(static e => e with
                    {
                        Coupling = new Dictionary<string, Radio.Quantities.Decibels>(),
                        Follows = null,
                        HalfDuplex = null,
                    }),
                ],
                Exclusive = [],
                Evidence = [],
            },
        };
    }

    // A product and its mirror image are one.
    private static bool Is(ProductFinding product, SiteProductReading entry)
    {
        Dictionary<string, int> terms = entry.Terms.ToDictionary(static t => t.Name, static t => t.Value);
        return product.Terms.Count == terms.Count
            && ((int[])[1, -1]).Any(
                sign => product.Terms.All(t => terms.TryGetValue(t.Name, out int k) && k * sign == t.Coefficient));
    }
}
