using System.Globalization;
using Spurless.Mixing.Levels;
using Spurless.Numerics;
using Spurless.Radio.Feedlines;
using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents;

namespace Spurless.Sites.Chains;

/// <summary>Assembles the receive chain of a receiver from its entry in the site file and the networks that it names.</summary>
internal sealed class ChainBuilder
{
    private readonly ReceiverEntry _entry;
    private readonly Func<FileReference, Network> _networkOf;
    private readonly List<ReceiverAssumption> _assumed = [];

    private ChainBuilder(ReceiverEntry entry, Func<FileReference, Network> networkOf) => (_entry, _networkOf) = (entry, networkOf);

    /// <summary>Builds the chain.</summary>
    /// <param name="entry">The receiver.</param>
    /// <param name="networkOf">The circuit or sweep that a reference names.</param>
    /// <returns>The chain, and what was assumed for want of a figure.</returns>
    public static (ReceiveChain Chain, IReadOnlyList<ReceiverAssumption> Assumed) Build(
        ReceiverEntry entry, Func<FileReference, Network> networkOf)
    {
        ChainBuilder builder = new(entry, networkOf);
        ReceiveChain chain = builder.Build();
        return (chain, builder._assumed);
    }

    /// <summary>The noise bandwidth of a receiver in hertz: as given, or by its raster.</summary>
    public static long IfBandwidthHz(ReceiverEntry entry) =>
        entry.IfBandwidth?.Hertz ?? ReceiverNoise.DefaultBandwidthHz(entry.Channel.Hertz);

    private ReceiveChain Build()
    {
        List<List<IPassiveStage>> sections = [[]];
        List<ActiveStage> amplifiers = [];
        foreach (ChainStageEntry stage in _entry.Chain)
        {
            switch (stage)
            {
                case FeedlineStage feedline:
                    sections[^1].Add(Of(feedline));
                    break;
                case AttenuatorStage attenuator:
                    double loss = attenuator.Loss.Value;
                    sections[^1].Add(new Pad($"attenuator {attenuator.Loss}", _ => loss));
                    break;
                case CircuitStage circuit:
                    sections[^1].Add(Of(circuit.Circuit));
                    break;
                case TwoPortStage twoPort:
                    sections[^1].Add(Of(twoPort.TwoPort));
                    break;
                case BypassStage bypass:
                    sections[^1].Add(Of(bypass.Bypass));
                    break;
                case AmplifierStage amplifier:
                    string name = string.Create(CultureInfo.InvariantCulture, $"amplifier {amplifiers.Count + 1}");
                    amplifiers.Add(new ActiveStage(
                        name,
                        amplifier.Gain.Value,
                        amplifier.NoiseFigure.Decibels,
                        Complete(amplifier.Intercepts[3].Dbm, amplifier.Intercepts)));
                    sections.Add([]);
                    break;
                default:
                    throw new InvalidOperationException($"a chain has no stage of kind {stage.GetType().Name}");
            }
        }

        if (_entry.ExternalNoise is null)
        {
            _assumed.Add(new ReceiverAssumption.NoExternalNoise());
        }

        return new ReceiveChain(sections, amplifiers, Receiver(), Selectivity());
    }

    private ActiveStage Receiver()
    {
        long bandwidth = IfBandwidthHz(_entry);
        if (_entry.IfBandwidth is null)
        {
            _assumed.Add(new ReceiverAssumption.BandwidthByRaster(bandwidth));
        }

        double carrierToNoise = ReceiverNoise.DefaultCarrierToNoiseDb(_entry.Channel.Hertz);
        ReceiverNoise noise = _entry.Sensitivity is { } sensitivity
            ? ReceiverNoise.FromSensitivity(sensitivity.Level.Dbm, carrierToNoise, bandwidth)
            : ReceiverNoise.FromNoiseFigure(_entry.NoiseFigure!.Value.Decibels, bandwidth);
        if (noise is { FromSensitivityDbm: { } stated, CarrierToNoiseDb: { } ratio })
        {
            _assumed.Add(new ReceiverAssumption.NoiseFromSensitivity(stated, ratio));
            if (!noise.IsPossible)
            {
                _assumed.Add(new ReceiverAssumption.ImpossibleNoiseFigure(noise.NoiseFigureDb));
            }
        }

        if (_entry.IntermodRejection is not { } rejection)
        {
            foreach ((int order, Level level) in _entry.Intercepts.OrderBy(static i => i.Key))
            {
                if (_entry.InterceptsFrom is { } from and not InterceptOrigin.DataSheet)
                {
                    _assumed.Add(new ReceiverAssumption.InterceptMeasured(order, level, from, SigmaDb(order)));
                }
            }

            return new ActiveStage(
                _entry.Name, 0, noise.NoiseFigureDb, Complete(_entry.Intercepts[3].Dbm, _entry.Intercepts, SigmaDb));
        }

        double by = rejection.By.Value;
        double iip3;
        if (rejection.Method == RejectionMethod.Tia603)
        {
            double limit = _entry.Sensitivity?.Level.Dbm ?? ReceiverNoise.SensitivityDbm(noise.NoiseDbm, carrierToNoise);
            iip3 = IntermodRejection.Tia603(by, limit, carrierToNoise);
            _assumed.Add(new ReceiverAssumption.InterceptByTia603(iip3, by, limit, carrierToNoise));
        }
        else
        {
            double wanted = rejection.Wanted?.Dbm ?? IntermodRejection.En300086WantedDbm;
            double coChannel = rejection.CoChannel?.Value ?? IntermodRejection.En300086CoChannelDb;
            iip3 = IntermodRejection.En300086(by, wanted, coChannel);
            _assumed.Add(new ReceiverAssumption.InterceptByEn300086(iip3, by, wanted, coChannel));
        }

        return new ActiveStage(_entry.Name, 0, noise.NoiseFigureDb, Complete(iip3, _entry.Intercepts, SigmaDb));
    }

    private double? SigmaDb(int order) =>
        _entry.InterceptUncertainty.Where(s => s.Order == order).Select(static s => (double?)s.Value.Value).FirstOrDefault();

    private IPassiveStage? Selectivity()
    {
        if (_entry.Selectivity is not { } selectivity)
        {
            return null;
        }

        if (selectivity.TwoPort is { } file)
        {
            return new Filter("selectivity " + file.Path, _networkOf(file).TwoPort, IsFilter: false);
        }

        double[] places = [.. selectivity.Points.Select(static p => Math.Log10(p.Frequency.Hertz))];
        double[] losses = [.. selectivity.Points.Select(static p => p.Value.Value)];
        return new Pad("selectivity", frequencyHz => Interpolation.Held(places, losses, Math.Log10(frequencyHz)));
    }

    private Feedline Of(FeedlineStage feedline)
    {
        if (feedline.Loss is { } loss)
        {
            (double decibels, double at) = (loss.Value.Value, loss.Frequency.Hertz);
            return new Feedline("feedline", f => FeedlineType.ScaledLossDb(decibels, at, f));
        }

        FeedlineType type = FeedlineType.TryParse(feedline.Type!, out FeedlineType known, out string problem)
            ? known
            : throw new InvalidOperationException(problem);
        double length = feedline.Length!.Value.Metres;
        _assumed.Add(new ReceiverAssumption.TypicalFeedline(type));
        return new Feedline($"feedline {type.Name}, {feedline.Length}", f => type.LossDb(length, f));
    }

    private Filter Of(FileReference reference)
    {
        Network network = _networkOf(reference);
        _assumed.AddRange(network.Remarks);
        return new Filter(network.Name, network.TwoPort, IsFilter: true) { LeakageUnstated = network.LeakageUnstated };
    }

    private static Intercepts Complete(
        double iip3Dbm, IReadOnlyDictionary<int, Level> given, Func<int, double?>? sigmaDb = null) =>
        Intercepts.Complete(iip3Dbm, order => given.TryGetValue(order, out Level level) ? level.Dbm : null, sigmaDb: sigmaDb);
}
