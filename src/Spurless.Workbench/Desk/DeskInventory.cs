using System.Globalization;
using Spurless.Mixing.Levels;
using Spurless.Radio.Quantities;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;
using Spurless.Sites.Studies;

namespace Spurless.Workbench.Desk;

/// <summary>
/// Lists what can be changed at one receiver: its chain from the antenna on, itself, and the transmitters in which mixing happens.
/// </summary>
internal sealed class DeskInventory
{
    // Isolation of one isolator and of two in a row, common practice.
    private const double OneIsolatorDb = 25;
    private const double DoubleIsolatorDb = 55;

    private readonly LoadedSite _site;
    private readonly IReadOnlyDictionary<string, Network> _offered;
    private readonly int _receiver;
    private readonly ReceiverEntry _entry;
    private readonly Intercepts _intercepts;
    private readonly int _highestOrder;

    private DeskInventory(LoadedSite site, IReadOnlyDictionary<string, Network> offered, int receiver)
    {
        (_site, _offered, _receiver) = (site, offered, receiver);
        _entry = site.Document.Receivers[receiver];
        _intercepts = MixingStages.OfReceiver(site, receiver);
        _highestOrder = site.Document.Search.HighestOrder ?? StudyService.DefaultOrders.Highest;
    }

    /// <summary>The stages of a receiver in the order of the signal, then the transmitters.</summary>
    /// <param name="site">The site as the file has it.</param>
    /// <param name="offered">Circuits and sweeps of the folder that do not stand in the chain, by path.</param>
    /// <param name="receiver">Which receiver.</param>
    public static IReadOnlyList<DeskStage> Of(LoadedSite site, IReadOnlyDictionary<string, Network> offered, int receiver) =>
        new DeskInventory(site, offered, receiver).Stages();

    private List<DeskStage> Stages()
    {
        List<DeskStage> stages = [];
        int front = 0;
        bool inFront = true;
        int amplifiers = 0;
        bool hasPad = false;
        for (int i = 0; i < _entry.Chain.Count; i++)
        {
            ChainStageEntry stage = _entry.Chain[i];
            inFront &= stage is FeedlineStage;
            front = inFront ? i + 1 : front;
            stages.Add(stage switch
            {
                FeedlineStage feedline => Feedline(i, feedline),
                AttenuatorStage pad => Pad(i, pad),
                CircuitStage circuit => InChain(i, circuit.Circuit),
                TwoPortStage sweep => InChain(i, sweep.TwoPort),
                BypassStage bypass => InChain(i, bypass.Bypass),
                AmplifierStage amplifier => Amplifier(i, amplifier, ++amplifiers),
                _ => throw new InvalidOperationException($"a chain has no stage of kind {stage.GetType().Name}"),
            });
            hasPad |= stage is AttenuatorStage;
        }

        int at = front;
        foreach (
            (string path, Network network) in _offered
                .Where(o => !_entry.Chain.Any(s => PathOf(s) == o.Key))
                .OrderBy(static o => o.Key, StringComparer.Ordinal))
        {
            stages.Insert(at++, Offered(front, path, network));
        }

        if (!hasPad)
        {
            stages.Add(OfferedPad());
        }

        stages.Add(Receiver());
        stages.AddRange(Transmitters());
        return stages;
    }

    internal static string? PathOf(ChainStageEntry stage) => stage switch
    {
        CircuitStage circuit => circuit.Circuit.Path,
        TwoPortStage sweep => sweep.TwoPort.Path,
        BypassStage bypass => bypass.Bypass.Path,
        _ => null,
    };

    private string Id(string what) => string.Create(CultureInfo.InvariantCulture, $"{_receiver}.{what}");

    private string StageId(int index) => Id(string.Create(CultureInfo.InvariantCulture, $"chain.{index}"));

    private DeskStage Feedline(int index, FeedlineStage stage)
    {
        if (stage.Loss is { } loss)
        {
            string suffix = $" at {loss.Frequency}";
            StageField field = new(_receiver, index, ["feedline", "loss"], suffix, static (_, text) => DeskTexts.FeedlineLoss(text), stage);
            DeskItem item = new()
            {
                Id = StageId(index) + ".loss",
                Name = $"loss at {loss.Frequency}",
                Effect = "Loss of the feedline: weakens every carrier and the wanted signal alike",
                Unit = "dB",
                FileValue = loss.Value.Value,
                Target = field,
            };
            return new DeskStage(DeskStageKind.Feedline, "Feedline", "", null, [DeskScale.Decibels(item, 0, 10, 0.1)]);
        }

        DeskItem length = new()
        {
            Id = StageId(index) + ".length",
            Name = "length",
            Effect = "Length of the feedline: weakens every carrier and the wanted signal alike",
            FileValue = 0,
            Target = new StageField(
                _receiver,
                index,
                ["feedline", "length"],
                "",
                static (s, text) => DeskTexts.Length(text) is { } l ? (FeedlineStage)s with { Length = l } : null,
                stage),
        };
        return new DeskStage(
            DeskStageKind.Feedline, "Feedline", stage.Type!, null,
            DeskScale.Proportional(length, stage.Length!.Value.ToString()) is { } scaled ? [scaled] : []);
    }

    private DeskStage Pad(int index, AttenuatorStage stage)
    {
        StageField field = new(_receiver, index, ["attenuator"], "", static (_, text) => DeskTexts.Pad(text), stage);
        return new DeskStage(
            DeskStageKind.Attenuator, "Attenuator", "", null, [PadItem(StageId(index) + ".attenuator", stage.Loss.Value, true, field)]);
    }

    private DeskStage OfferedPad() => new(
        DeskStageKind.Attenuator,
        "Attenuator",
        "not in the chain at 0 dB",
        null,
        [PadItem(Id("add.attenuator"), 0, false, new PadOffered(_receiver, _entry.Chain.Count))]);

    private static DeskItem PadItem(string id, double value, bool stated, DeskTarget target) => DeskScale.Decibels(
        new DeskItem
        {
            Id = id,
            Name = "loss",
            Effect =
                "Attenuator: each dB takes 3 dB off a third-order mixture made in the receiver, 1 dB off one that arrives already mixed",
            Unit = "dB",
            FileValue = value,
            IsStated = stated,
            Target = target,
        },
        0,
        20,
        1);

    private DeskStage InChain(int index, FileReference file)
    {
        Network network = _site.Of(file);
        return new DeskStage(
            DeskStageKind.Filter,
            network.Name,
            file.Path,
            Switch(StageId(index), network.Name, 1, new StagePresence(_receiver, index)),
            DeskParts.Of(file.Path, network.Circuit));
    }

    private DeskStage Offered(int before, string path, Network network) => new(
        DeskStageKind.Filter,
        network.Name,
        path + ", not in the chain yet",
        Switch(Id("add." + path), network.Name, 0, new StageOffered(_receiver, before, path, network.Circuit is not null)),
        DeskParts.Of(path, network.Circuit));

    private static DeskItem Switch(string id, string name, double value, DeskTarget target) => new()
    {
        Id = id,
        Name = name,
        Effect = $"{name}: what the receiver hears with this filter in its chain, and without it",
        IsSwitch = true,
        FileValue = value,
        Target = target,
    };

    private DeskStage Amplifier(int index, AmplifierStage stage, int number)
    {
        string name = string.Create(CultureInfo.InvariantCulture, $"Amplifier {number}");
        DeskItem Item(
            string key, string shown, string effect, string unit, double value, Func<ChainStageEntry, string, ChainStageEntry?> change) =>
            new()
            {
                Id = StageId(index) + "." + key,
                Name = shown,
                Effect = $"{shown} of {name.ToLowerInvariant()}: {effect}",
                Unit = unit,
                FileValue = value,
                Target = new StageField(_receiver, index, ["amplifier", key], "", change, stage),
            };

        List<DeskItem> items =
        [
            DeskScale.Decibels(
                Item(
                    "gain",
                    "Gain",
                    "every dB more drives what follows harder",
                    "dB",
                    stage.Gain.Value,
                    static (s, t) => DeskTexts.Ratio(t) is { } g ? (AmplifierStage)s with { Gain = g } : null),
                0,
                40,
                0.5),
            DeskScale.Decibels(
                Item(
                    "noise_figure",
                    "Noise figure",
                    "raises or lowers the noise floor",
                    "dB",
                    stage.NoiseFigure.Decibels,
                    static (s, t) => DeskTexts.NoiseFigure(t) is { } n ? (AmplifierStage)s with { NoiseFigure = n } : null),
                0,
                15,
                0.1),
        ];
        foreach ((int order, Level level) in stage.Intercepts.OrderBy(static i => i.Key == 3 ? 0 : i.Key))
        {
            string key = string.Create(CultureInfo.InvariantCulture, $"iip{order}");
            items.Add(DeskScale.Decibels(
                Item(
                    key,
                    key.ToUpperInvariant(),
                    Falls(order),
                    "dBm",
                    level.Dbm,
                    (s, t) =>
                        DeskTexts.Level(t) is { } l
                            ? (AmplifierStage)s with { Intercepts = Put(((AmplifierStage)s).Intercepts, order, l) }
                            : null),
                -30,
                40,
                0.5));
        }

        return new DeskStage(DeskStageKind.Amplifier, name, "", null, items);
    }

    private static string Falls(int order) => string.Create(
        CultureInfo.InvariantCulture, $"every dB more takes {order - 1} dB off the mixtures of order {order} made there");

    private static Dictionary<int, Level> Put(IReadOnlyDictionary<int, Level> all, int order, Level level) => new(all) { [order] = level };

    private DeskStage Receiver()
    {
        List<DeskItem> items = [];
        for (int order = 2; order <= _highestOrder; order++)
        {
            if (order == 3 && _entry.IntermodRejection is { } rejection)
            {
                items.Insert(0, DeskScale.Decibels(
                    Field(
                        "intermod_rejection",
                        ["intermod_rejection", "by"],
                        "Intermodulation rejection",
                        "every dB more takes 3 dB off the third-order mixtures made in it",
                        "dB",
                        rejection.By.Value,
                        true,
                        (e, t) => DeskTexts.Positive(t) is { } by ? e with { IntermodRejection = rejection with { By = by } } : null),
                    40,
                    100,
                    0.5));
                continue;
            }

            items.Insert(order == 3 ? 0 : items.Count, Intercept(order));
        }

        if (_entry.NoiseFigure is { } figure)
        {
            items.Add(DeskScale.Decibels(
                Field("noise_figure", ["noise_figure"], "Noise figure", "raises or lowers the noise floor", "dB", figure.Decibels, true,
                    static (e, t) => DeskTexts.NoiseFigure(t) is { } n ? e with { NoiseFigure = n } : null), 0, 20, 0.1));
        }

        if (_entry.Antenna?.Gain is { } gain && _entry.Antenna is { } antenna)
        {
            items.Add(DeskScale.Decibels(
                Field(
                    "antenna.gain",
                    ["antenna", "gain"],
                    "Gain of the antenna",
                    "moves every predicted level, no measured one",
                    "dBi",
                    gain.Dbi,
                    true,
                    (e, t) => DeskTexts.Gain(t) is { } g ? e with { Antenna = antenna with { Gain = g } } : null),
                -10,
                20,
                0.5));
        }

        return new DeskStage(DeskStageKind.Receiver, "Receiver", _entry.Name, null, items);
    }

    private DeskItem Intercept(int order)
    {
        string key = string.Create(CultureInfo.InvariantCulture, $"iip{order}");
        bool stated = _entry.Intercepts.ContainsKey(order);
        double value = stated ? _entry.Intercepts[order].Dbm : Math.Round(_intercepts.Dbm(order), 1);
        DeskItem item = Field(key, [key], key.ToUpperInvariant(), Falls(order), "dBm", value, stated,
            (e, t) => DeskTexts.Level(t) is { } l ? e with { Intercepts = Put(e.Intercepts, order, l) } : null);
        return DeskScale.Decibels(item, order == 2 ? 0 : -20, order == 2 ? 70 : 25, 0.5);
    }

    private DeskItem Field(
        string key,
        IReadOnlyList<string> keys,
        string name,
        string effect,
        string unit,
        double value,
        bool stated,
        Func<ReceiverEntry, string, ReceiverEntry?> change) => new()
        {
            Id = Id(key),
            Name = name,
            Effect = $"{name} of the receiver: {effect}",
            Unit = unit,
            FileValue = value,
            IsStated = stated,
            Target = new ReceiverField(_receiver, keys, change, _entry),
        };

    /// <summary>
    /// Transmitters of which a product can be computed, those of the site file itself: a table's rows are not written from here.
    /// </summary>
    private IEnumerable<DeskStage> Transmitters()
    {
        foreach (MixingTransmitter stage in MixingStages.Transmitters(_site))
        {
            EmitterEntry emitter = _site.Document.Emitters[stage.Emitter];
            if (emitter.Source.File != _site.Document.File || emitter.Isolator is { Everywhere: null, Points.Count: not 1 })
            {
                continue;
            }

            DecibelsAt? point = emitter.Isolator is { Points: [var only] } ? only : null;
            // Stated at the frequency that it has to keep out: that of the strongest signal that arrives there.
            Frequency at = point?.Frequency ?? _site.Document.Emitters[stage.Strongest].Frequency;
            bool everywhere = emitter.Isolator?.Everywhere is not null;
            DeskItem item = new()
            {
                Id = $"isolator.{emitter.Name}",
                Name = everywhere ? "isolator" : $"isolator, at {at}",
                Effect =
                    $"Isolator behind the transmitter of the {emitter.Name}: "
                        + $"each dB takes 1 dB or more off what is mixed there; it is its owner’s to fit",
                Unit = "dB",
                FileValue = emitter.Isolator is { } stated ? stated.Everywhere?.Value ?? point!.Value.Value.Value : 0,
                IsStated = emitter.Isolator is not null,
                Presets =
                [
                    new("none", 0),
                    new("one, 25 dB", OneIsolatorDb),
                    new("double, 55 dB", DoubleIsolatorDb),
                ],
                Target = new IsolatorField(stage.Emitter, everywhere ? "" : $" at {at}", emitter.Isolator is not null),
            };
            yield return new DeskStage(
                DeskStageKind.Transmitter,
                $"Transmitter of the {emitter.Name}",
                "not yours: ask its owner",
                null,
                [DeskScale.Decibels(item, 0, 80, 1)]);
        }
    }
}
