using Spurless.Files.Yaml;
using Spurless.Mixing.Causes;
using Spurless.Radio.Noise;
using Spurless.Radio.Quantities;
using Spurless.Radio.Terrain;

namespace Spurless.Sites.Documents;

/// <summary>The shapes of a receiver and what belongs to it.</summary>
internal static class ReceiverShapes
{
    // Above the antenna's shape: fields are made in the order in which they stand.
    private static readonly Shape<AntennaResponseEntry> _response = Shapes.ByKind(
        scalar: QuantityShapes.File("the file of a measured two-port").Select(static f => new AntennaResponseEntry([], f)),
        sequence: PointLists.ByFrequency(QuantityShapes.GainAt).Select(static points => new AntennaResponseEntry(points, null)));

    private static readonly Shape<Polarisation> _polarisation = Shapes.Words(("vertical", Polarisation.Vertical), ("horizontal",
        Polarisation.Horizontal));

    public static Shape<AntennaEntry> Antenna { get; } = Shapes.Mapping("{ gain: 6 dBd, height: 20 m }", static m => new AntennaEntry(
        m.Maybe("gain", QuantityShapes.Gain, "gain over a dipole (dBd) or over isotropic (dBi)"),
        m.Maybe("height", QuantityShapes.Height, "height over the ground"),
        m.Maybe("bearing", QuantityShapes.Bearing, "direction of its maximum"),
        m.Maybe("beamwidth", QuantityShapes.Beamwidth, "half-power width"),
        m.Maybe("mismatch", QuantityShapes.Mismatch, "magnitude of its reflection coefficient out of band"))
    {
        Response = m.Optional("response", _response, "its gain over frequency, relative to that in its own band"),
        Polarisation = m.Maybe("polarisation", _polarisation, "plane of its electric field"),
        Tilt = m.Maybe("tilt", QuantityShapes.Tilt, "how far its main lobe points under the horizon, degrees"),
        VerticalBeamwidth = m.Maybe("vertical_beamwidth", QuantityShapes.Beamwidth, "half-power width in the vertical"),
    });

    private static readonly Shape<RejectionMethod> _method = Shapes.Words(
        ("tia603", RejectionMethod.Tia603), ("en300086", RejectionMethod.En300086));

    private static readonly Shape<IntermodRejectionEntry> _rejection = Shapes.Mapping(
        "{ by: 70 dB, method: tia603 }, the method being tia603 or en300086",
        static m =>
        {
            IntermodRejectionEntry entry = new(
                m.Required("by", QuantityShapes.PositiveDecibels, "the rejection"),
                m.Required("method", _method, "how it was measured"),
                m.Maybe("wanted", QuantityShapes.Level, "wanted level of the test, en300086 only, default -107 dBm"),
                m.Maybe("co_channel", QuantityShapes.PositiveDecibels, "co-channel rejection, en300086 only, default 8 dB"));
            foreach (string key in (string[])["wanted", "co_channel"])
            {
                if (m.Has("method")
                    && entry.Method == RejectionMethod.Tia603
                    && m.Node?.Find(key) is { } found
                    && m.Node.Value("method") is YamlScalar { Text: "tia603" })
                {
                    found.Place.Error(
                        m.Diagnostics, $"'{key}' has no meaning with the method tia603", "delete it, or write 'method: en300086'");
                }
            }

            return entry;
        });

    private static readonly Shape<SelectivityEntry> _selectivity = Shapes.ByKind(
        scalar: QuantityShapes.LossAt.Select(static one => new SelectivityEntry([one], null)),
        sequence: PointLists.ByFrequency(QuantityShapes.LossAt).Select(static points => new SelectivityEntry(points, null)),
        mapping: Shapes.Mapping("{ two_port: front-end.s2p }", static m => new SelectivityEntry(
            [], m.Required("two_port", QuantityShapes.File("the file of a measured two-port"), "its measurement"))));

    private static readonly Shape<AdjacentEntry> _adjacent = Shapes.ByKind(
        scalar: QuantityShapes.PositiveDecibels.Select(static one => new AdjacentEntry(one, [])),
        sequence: PointLists.ByFrequency(QuantityShapes.RejectionAtOffset).Select(static points => new AdjacentEntry(null, points)));

    private static readonly Shape<ExternalNoiseEntry> _externalNoise = Shapes.Value<ExternalNoiseEntry>(
        "none, quiet rural, rural, residential, city or a figure over kT0 such as 6 dB",
        static (string text, out ExternalNoiseEntry value, out string problem) =>
        {
            NoiseSurroundings? words = text switch
            {
                "none" => NoiseSurroundings.None,
                "quiet rural" => NoiseSurroundings.QuietRural,
                "rural" => NoiseSurroundings.Rural,
                "residential" => NoiseSurroundings.Residential,
                "city" => NoiseSurroundings.City,
                _ => null,
            };
            bool number = Decibels.TryParse(text, out Decibels figure, out problem);
            value = new ExternalNoiseEntry(words, words is null && number ? figure : null);
            if (words is null && !number && !(text.Length > 0 && (char.IsAsciiDigit(text[0]) || text[0] is '-' or '+' or '.')))
            {
                string? near = Files.Nearest.Find(text, ["none", "quiet rural", "rural", "residential", "city"]);
                problem = $"the word '{Files.Quote.Short(text)}' is not known here; write "
                    + (near is null ? "none, quiet rural, rural, residential, city or a figure over kT0 such as 6 dB" : $"'{near}'");
            }

            return words is not null || number;
        });

    private static readonly Shape<SuperhetEntry> _superhet = Shapes.Mapping(
        "{ first_if: 21.4 MHz, injection: low }", static m => new SuperhetEntry(
        m.Required("first_if", QuantityShapes.Frequency, "first intermediate frequency"),
        m.Required("injection", Shapes.Words(("low", Injection.Low), ("high", Injection.High)), "side of the first local oscillator"),
        m.Maybe("second_if", QuantityShapes.Frequency, "second intermediate frequency")));

    private static readonly Shape<ChainStageEntry?> _stage = Shapes.Mapping(
        "{ feedline: … }, { circuit: … }, { two_port: … }, { attenuator: … } or { amplifier: … }", ReadStage);

    private static readonly Shape<LevelsAt> _levelsAt = Shapes.Words(
        ("antenna", LevelsAt.Antenna), ("feedline end", LevelsAt.FeedlineEnd), ("receiver", LevelsAt.Receiver));

    private static readonly Shape<InterceptOrigin> _interceptsFrom = Shapes.Words(
        ("data sheet", InterceptOrigin.DataSheet), ("bench", InterceptOrigin.Bench), ("on the air", InterceptOrigin.OnTheAir));

    public static Shape<ReceiverEntry> Receiver { get; } = Shapes.Mapping("keys such as name, frequency, channel", static m =>
    {
        ReceiverEntry entry = new()
        {
            Name = m.Required("name", QuantityShapes.NameOf("a name of your choice"), "a name of your choice, each once in a file"),
            Frequency = m.Required("frequency", QuantityShapes.Frequency, "the channel's centre"),
            Channel = m.Required("channel", QuantityShapes.Width, "the raster: decides what can hit"),
            IfBandwidth = m.Maybe("if_bandwidth", QuantityShapes.Width, "noise bandwidth"),
            Sensitivity = m.Maybe("sensitivity", QuantityShapes.Sensitivity, "for 12 dB SINAD"),
            NoiseFigure = m.Maybe("noise_figure", QuantityShapes.NoiseFigure, "in place of a sensitivity"),
            Intercepts = Intercepts(m),
            IntermodRejection = m.Optional("intermod_rejection", _rejection, "in place of iip3"),
            InterceptUncertainty = m.Or(
                "intercept_uncertainty", PointLists.SigmaByOrder, [], "one sigma of the intercepts; left out, 3 dB of those given"),
            InterceptsFrom = m.Maybe("intercepts_from", _interceptsFrom, "where the intercepts are from"),
            Selectivity = m.Optional("selectivity", _selectivity, "what the receiver takes away before its first active stage"),
            ExternalNoise = m.Optional("external_noise", _externalNoise, "noise that arrives with the signals"),
            Antenna = m.Optional("antenna", Antenna, "the receiving antenna"),
            Wanted = m.Maybe("wanted", QuantityShapes.Level, "weakest signal to protect"),
            SquelchOpens = m.Maybe("squelch_opens", QuantityShapes.Decibels, "over noise"),
            SpoilsWithin = m.Maybe("spoils_within", QuantityShapes.Decibels, "a mixture this close under the wanted signal spoils it"),
            Mismatch = m.Maybe("mismatch", QuantityShapes.Mismatch, "magnitude of the receiver's reflection coefficient out of band"),
            CommonUncertainty = m.Maybe("common_uncertainty", QuantityShapes.Sigma, "one sigma that all measured levels share"),
            Superhet = m.Optional("superhet", _superhet, "frequency plan, for image and half-IF"),
            Adjacent = m.Optional("adjacent", _adjacent, "adjacent-channel selectivity over sensitivity"),
            Blocking = m.Maybe("blocking", QuantityShapes.PositiveDecibels, "blocking signal over sensitivity"),
            LocalOscillatorNoise = m.Or("lo_noise", PointLists.NoiseByOffset, [], "sideband noise of the local oscillator"),
            LevelsAt = m.Or("levels_at", _levelsAt, LevelsAt.Antenna, "where this receiver's measured levels were taken"),
            Chain =
            [
                .. m.Or("chain", Shapes.ListOf(_stage), [], "from the antenna connector towards the receiver").OfType<ChainStageEntry>(),
            ],
            Source = EntrySource.Of(m.Node),
        };
        m.ExactlyOne("add 'sensitivity: 0.25 uV pd' or 'noise_figure: 6 dB'", "sensitivity", "noise_figure");
        m.ExactlyOne(
            "add 'iip3: -10 dBm', a typical guess, or 'intermod_rejection: { by: 70 dB, method: tia603 }'", "iip3", "intermod_rejection");
        foreach (DecibelsAtOrder sigma in entry.InterceptUncertainty)
        {
            if (sigma.Order != 3 && !entry.Intercepts.ContainsKey(sigma.Order))
            {
                entry.Source.Error(
                    m.Diagnostics, "intercept_uncertainty", FormattableString.Invariant($"'{sigma}' is of an intercept that is not given"),
                    FormattableString.Invariant($"give iip{sigma.Order}, or leave this one out"));
            }
        }

        return entry;
    });

    private static Dictionary<int, Level> Intercepts(MappingReader m, bool thirdRequired = false)
    {
        Dictionary<int, Level> all = [];
        for (int order = 2; order <= 9; order++)
        {
            string key = FormattableString.Invariant($"iip{order}");
            string about = FormattableString.Invariant($"input intercept of order {order}");
            if (order == 3 && thirdRequired)
            {
                all[order] = m.Required(key, QuantityShapes.Intercept, about);
            }
            else if (m.Maybe(key, QuantityShapes.Intercept, about) is { } level)
            {
                all[order] = level;
            }
        }

        return all;
    }

    private static ChainStageEntry? ReadStage(MappingReader m)
    {
        FeedlineStage? feedline = m.Optional(
            "feedline", Shapes.Mapping("{ loss: 1.2 dB at 145 MHz } or { type: rg213, length: 30 m }", ReadFeedline), "a cable");
        FileReference? circuit = m.Optional("circuit", QuantityShapes.File("the file of a circuit"), "a circuit of its own file");
        FileReference? twoPort = m.Optional("two_port", QuantityShapes.File("the file of a measured two-port"), "a measured two-port");
        FileReference? bypass = m.Optional(
            "bypass", QuantityShapes.File("the file of a bypass relay"), "a filter with the relay round it, at rest");
        Decibels? attenuator = m.Maybe("attenuator", QuantityShapes.NotNegativeDecibels, "an attenuator");
        AmplifierStage? amplifier = m.Optional(
            "amplifier", Shapes.Mapping("{ gain: 15 dB, noise_figure: 1.5 dB, iip3: 5 dBm }", ReadAmplifier), "an amplifier");
        m.ExactlyOneKind(
            "write one of feedline, circuit, two_port, bypass, attenuator, amplifier",
            "feedline",
            "circuit",
            "two_port",
            "bypass",
            "attenuator",
            "amplifier");
        return feedline is not null ? feedline
            : circuit is not null ? new CircuitStage(circuit)
            : twoPort is not null ? new TwoPortStage(twoPort)
            : bypass is not null ? new BypassStage(bypass)
            : attenuator is { } loss ? new AttenuatorStage(loss)
            : amplifier;
    }

    private static FeedlineStage ReadFeedline(MappingReader m)
    {
        FeedlineStage stage = new(
            m.Maybe("loss", QuantityShapes.LossAt, "loss at a frequency"),
            m.Optional("type", QuantityShapes.FeedlineName, "type of cable"),
            m.Maybe("length", QuantityShapes.Distance, "its length"));
        m.ExactlyOne("add 'loss: 1.2 dB at 145 MHz', or 'type: rg213' with 'length: 30 m'", "loss", "type");
        m.AtMostOne("loss", "length");
        m.Needs("type", "length", "add 'length: 30 m'");
        m.Needs("length", "type", "add 'type: rg213'");
        return stage;
    }

    private static AmplifierStage ReadAmplifier(MappingReader m) => new(
        m.Required("gain", QuantityShapes.Decibels, "its gain"),
        m.Required("noise_figure", QuantityShapes.NoiseFigure, "its noise figure"),
        Intercepts(m, thirdRequired: true));
}
