using Spurless.Mixing.Evidence;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Recordings;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Sites.Locating;

/// <summary>Makes what stands in a site file into what is weighed for one receiver.</summary>
internal sealed class EvidenceReading(LoadedSite site, ReceiverFindings receiver)
{
    /// <summary>Most products that are weighed for one receiver: nobody tells more apart.</summary>
    public const int MostProducts = 5_000;

    private const double ReferenceSigma = 2.5e-6;
    private const double MeasuredOffsetSigmaHz = 20;

    private readonly EmitterEntry[] _emitters = [.. site.Document.Emitters];
    private readonly Dictionary<string, int> _indexOf = receiver.Carriers.Select(static (c, i) => (c.Emitter, i)).ToDictionary(
        static p => p.Emitter, static p => p.i, StringComparer.Ordinal);

    /// <summary>Each product that could be it once, in the study's order, with the row's own findings beside it.</summary>
    public (List<ProductFinding> Findings, int LeftOut) Candidates()
    {
        List<ProductFinding> all = [];
        HashSet<ProductIdentity> seen = [];
        int leftOut = 0;
        foreach (ProductFinding finding in receiver.Products)
        {
            if (finding.Verdict != Verdict.Clear && seen.Add(finding.Identity))
            {
                if (all.Count < MostProducts)
                {
                    all.Add(finding);
                }
                else
                {
                    leftOut++;
                }
            }
        }

        return (all, leftOut);
    }

    /// <summary>The products as they are weighed.</summary>
    public IReadOnlyList<EvidenceProduct> Products(IReadOnlyList<ProductFinding> findings)
    {
        HashSet<ProductRow> rows =
        [
            .. receiver.Products.TakeWhile(static p => p.Verdict is Verdict.Harmful or Verdict.Marginal)
                .Where(static p => p.Mechanism == Mechanism.Transmitter).Select(static p => p.Row),
        ];
        return [.. findings.Select(f => Product(f, rows))];
    }

    /// <summary>What was observed on this receiver, logs left out, and where it stands.</summary>
    /// <param name="findings">The products.</param>
    /// <param name="moments">What logs of the receiver say, in part perhaps of the same recording; null without one.</param>
    public List<(Observation Observation, EvidenceEntry Entry)> Readings(IReadOnlyList<ProductFinding> findings, LogMoments? moments)
    {
        bool[] contradicted = [.. Products(findings).Select(p => moments?.CountsOf(p).OffHeard > 0)];
        List<(Observation, EvidenceEntry)> all = [];
        foreach (EvidenceEntry entry in site.Document.Evidence)
        {
            if (Reading(entry, findings, contradicted) is { } observation)
            {
                all.Add((observation, entry));
            }
        }

        return all;
    }

    /// <summary>A filter as it acts on the site's frequencies.</summary>
    public FilterInLine Filter(Network network, int index, double overNoiseDb, IReadOnlyList<ProductFinding> findings) => new()
    {
        Filter = index,
        OverNoiseDb = overNoiseDb,
        LossOfEmitterDb = [.. receiver.Carriers.Select(c => LossDb(network, c.FrequencyHz))],
        LossOfProductDb = [.. findings.Select(f => LossDb(network, f.FrequencyHz))],
        LossOnChannelDb = LossDb(network, receiver.FrequencyHz),
    };

    private Observation? Reading(EvidenceEntry entry, IReadOnlyList<ProductFinding> findings, bool[] contradicted) => entry switch
    {
        AttenuatorTest t when t.Receiver == receiver.Name => new PadInLine
        {
            PadDb = t.Inserted.Value,
            FirstStageBehind = t.At == InsertedAt.Antenna ? 0 : receiver.Chain.ActiveStages.Count - 1,
            OverNoiseDb = t.OverNoise.Value,
            FallDb = t.Fall.Value,
            SigmaDb = t.PlusMinus?.Value ?? FallObservation.UsualSigmaDb,
        },
        FilterTest t when t.Receiver == receiver.Name => Filter(site.Of(t.Inserted), -1, t.OverNoise.Value, findings) with
        {
            FallDb = t.Fall.Value,
            SigmaDb = t.PlusMinus?.Value ?? FallObservation.UsualSigmaDb,
        },
        EmitterReduced t when t.Receiver == receiver.Name => new EmitterDown
        {
            Emitter = _indexOf[t.Emitter],
            ByDb = t.By?.Value ?? double.PositiveInfinity,
            OverNoiseDb = t.OverNoise.Value,
            FallDb = t.Fall.Value,
            SigmaDb = t.PlusMinus?.Value ?? FallObservation.UsualSigmaDb,
        },
        OffsetMeasured t when t.Receiver == receiver.Name => new OffsetReading
        {
            OffsetHz = t.Measured.Hertz,
            SigmaHz = t.PlusMinus?.Hertz ?? OffsetReading.UsualSigmaHz,
        },
        RecordingHeard t when t.Receiver == receiver.Name => Kinds(t, findings, contradicted),
        _ => null,
    };

    /// <summary>
    /// How likely the kinds are that were heard. Where a log has it heard while one of the mixture's emitters was off, something else was
    /// on the channel, which the log has weighed already: the kinds may be that one's, so they count no less than for something else.
    /// </summary>
    private GivenLikelihoods Kinds(RecordingHeard heard, IReadOnlyList<ProductFinding> findings, bool[] contradicted)
    {
        double other = SiteFits.LogLikelihoodOfOther(heard.Kinds);
        return new GivenLikelihoods(
            [
                .. findings.Select((f, i) => SiteFits.LogLikelihood(f, site.Document, heard.Kinds, heard.Deviation?.Hertz) is var own
                    && contradicted[i] ? Math.Max(own, other) : own),
            ],
            other);
    }

    private EvidenceProduct Product(ProductFinding finding, HashSet<ProductRow> madeInTransmitters)
    {
        double shareDb = finding is { InChannelLevelDbm: { } inChannel, LevelDbm: { } level } ? inChannel - level : 0;
        double offset = finding.OffsetHz;
        double variance = 0;
        foreach (Term term in finding.Terms)
        {
            double? measured = _emitters[term.Emitter].Offset?.Hertz;
            double sigma = term.Coefficient * (measured is null ? ReferenceSigma * term.FrequencyHz : MeasuredOffsetSigmaHz);
            offset += term.Coefficient * (measured ?? 0);
            variance += sigma * sigma;
        }

        return new EvidenceProduct
        {
            Terms = [.. finding.Terms.Select(static t => new EvidenceTerm(t.Emitter, t.Coefficient))],
            OffsetHz = offset,
            OffsetSigmaHz = Math.Sqrt(variance),
            Places =
            [
                .. finding.Places.Where(p => CanBe(finding, p, madeInTransmitters)).Select(p => new EvidencePlace
                {
                    Kind = p.Mechanism switch
                    {
                        Mechanism.Receiver => MakingPlace.Receiver,
                        Mechanism.Transmitter => MakingPlace.Transmitter,
                        _ => MakingPlace.Outside,
                    },
                    Index = p.Stage ?? p.Emitter ?? -1,
                    OverNoiseDb = p.LevelDbm + shareDb - receiver.NoiseFloorDbm,
                    SigmaDb = p.SigmaDb ?? 0,
                }),
            ],
        };
    }

    /// <summary>
    /// A transmitter can make it where another of the product's emitters stands on the same structure or has a stated coupling to it, or
    /// where the study finds what it makes.
    /// </summary>
    private bool CanBe(ProductFinding finding, MixingPlace place, HashSet<ProductRow> madeInTransmitters)
    {
        if (place.Emitter is not { } maker)
        {
            return true;
        }

        EmitterEntry at = _emitters[maker];
        return madeInTransmitters.Contains(new ProductRow(finding.Identity, at.Name)) || finding.Terms.Any(t => t.Emitter != maker
            && (at.Coupling.ContainsKey(t.Name)
                || (at.Path?.Model == PathModel.SameStructure && _emitters[t.Emitter].Path?.Model == PathModel.SameStructure)));
    }

    private static double LossDb(Network network, double frequencyHz)
    {
        Filter filter = new(network.Name, network.TwoPort, IsFilter: true);
        return filter.Covers(frequencyHz)
            ? -Math.Max(-400, 20 * Math.Log10(filter.At(frequencyHz).S21.Magnitude))
            : double.NaN;
    }
}
