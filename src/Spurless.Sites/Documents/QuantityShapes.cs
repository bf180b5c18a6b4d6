using System.Globalization;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Radio.Emissions;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>The shapes of single values in the site file.</summary>
internal static class QuantityShapes
{
    public static Shape<Frequency> Frequency { get; } = Shapes.Value<Frequency>(
        "a frequency such as 145.05 MHz", Radio.Quantities.Frequency.TryParsePositive);

    public static Shape<Frequency> Width { get; } = Shapes.Value<Frequency>("a width such as 12.5 kHz", TryParseWidth);

    public static Shape<Frequency> Bandwidth { get; } = Shapes.Value<Frequency>("a bandwidth such as 16 kHz", TryParseBandwidth);

    public static Shape<Frequency> Offset { get; } = Shapes.Value<Frequency>("an offset such as -180 Hz", TryParseOffset);

    public static Shape<Emission> Emission { get; } = Shapes.Value<Emission>(
        "an emission designator such as 11K2F3E", Radio.Emissions.Emission.TryParse);

    public static Shape<Level> Level { get; } = Shapes.Value<Level>("a level such as -21 dBm", Radio.Quantities.Level.TryParse);

    public static Shape<Level> Intercept { get; } = Shapes.Value<Level>(
        "an input intercept such as -8 dBm", Radio.Quantities.Level.TryParse);

    public static Shape<Sensitivity> Sensitivity { get; } = Shapes.Value<Sensitivity>(
        "a sensitivity such as 0.25 uV pd", Radio.Quantities.Sensitivity.TryParse);

    public static Shape<NoiseFigure> NoiseFigure { get; } = Shapes.Value<NoiseFigure>(
        "a noise figure such as 6 dB", Radio.Quantities.NoiseFigure.TryParse);

    public static Shape<Decibels> Decibels { get; } = Shapes.Value<Decibels>("a ratio such as 6 dB", Radio.Quantities.Decibels.TryParse);

    public static Shape<Decibels> NotNegativeDecibels { get; } = Decibels.Check(
        static d => d.Value >= 0 ? null : new Refusal($"'{d}' is negative", "write how much it takes away, such as 3 dB"));

    public static Shape<Decibels> Sigma { get; } = Decibels.Check(
        static d => d.Value >= 0 ? null : new Refusal($"'{d}' is negative", "write an uncertainty of 0 or more, such as 6 dB"));

    public static Shape<Decibels> PositiveDecibels { get; } = Decibels.Check(
        static d => d.Value > 0 ? null : new Refusal($"'{d}' is not above 0", "write a ratio such as 3 dB"));

    public static Shape<DecibelsAt> LossAt { get; } = Shapes.Value<DecibelsAt>(
        "a loss at a frequency such as 1.2 dB at 145 MHz", DecibelsAt.TryParse)
        .Check(
            static d =>
                d.Value.Value >= 0 ? null : new Refusal($"'{d}' is negative", "write how much it takes away, such as 25 dB at 160 MHz"));

    public static Shape<DecibelsAt> RejectionAtOffset { get; } = Shapes.Value<DecibelsAt>(
        "a rejection at an offset such as 70 dB at 12.5 kHz", DecibelsAt.TryParse)
        .Check(
            static d =>
                d.Value.Value > 0 ? null : new Refusal($"'{d}' is not above 0", "write how much it rejects, such as 70 dB at 12.5 kHz"));

    public static Shape<DecibelsAt> GainAt { get; } = Shapes.Value<DecibelsAt>("a gain at a frequency such as -20 dB at 94 MHz",
        DecibelsAt.TryParse);

    public static Shape<DecibelsAtOrder> SigmaAtOrder { get; } = Shapes.Value<DecibelsAtOrder>(
        "one sigma at an order such as 1.2 dB at 3", DecibelsAtOrder.TryParse)
        .Check(
            static d => d.Value.Value >= 0
                ? null
                : new Refusal($"'{d}' is negative", "write an uncertainty of 0 or more, such as 1.2 dB at 3"));

    public static Shape<DecibelsAtOrder> LossAtOrder { get; } = Shapes.Value<DecibelsAtOrder>("a loss at an order such as 12 dB at 3",
        DecibelsAtOrder.TryParse)
        .Check(static d => d.Value.Value >= 0 ? null : new Refusal($"'{d}' is negative",
            "write how much it takes away, such as 12 dB at 3"));

    public static Shape<NoiseDensityAt> NoiseAt { get; } = Shapes.Value<NoiseDensityAt>(
        "a noise density at an offset such as -140 dBc/Hz at 1 MHz", NoiseDensityAt.TryParse);

    public static Shape<CarrierRatioAtOrder> Harmonic { get; } = Shapes.Value<CarrierRatioAtOrder>(
        "a harmonic such as -70 dBc at 2", CarrierRatioAtOrder.TryParse)
        .Check(
            static h => h.Ratio.Dbc <= 0 ? null : new Refusal(
                $"'{h}' is stronger than the carrier", "write a negative figure such as -70 dBc at 2"));

    public static Shape<Power> Power { get; } = Shapes.Value<Power>("a power such as 25 W", Radio.Quantities.Power.TryParse);

    public static Shape<AntennaGain> Gain { get; } = Shapes.Value<AntennaGain>("an antenna gain such as 6 dBd", AntennaGain.TryParse);

    public static Shape<Fraction> Activity { get; } = Shapes.Value<Fraction>("a share of the time such as 15 %", TryParseActivity);

    public static Shape<Length> AnyLength { get; } = Shapes.Value<Length>("a height such as 410 m", Length.TryParse);

    public static Shape<Length> Height { get; } = Shapes.Value<Length>("a height such as 20 m", Length.TryParseNotNegative);

    public static Shape<Length> Distance { get; } = Shapes.Value<Length>("a distance such as 650 m", Length.TryParsePositive);

    public static Shape<Length> Spacing { get; } = Shapes.Value<Length>("a distance such as 6 m, or 0 m", Length.TryParseNotNegative);

    public static Shape<double> Latitude { get; } = Shapes.Number("degrees from -90 to 90, as in 40.5", -90, 90);

    public static Shape<double> Longitude { get; } = Shapes.Number("degrees from -180 to 180, as in -35.2", -180, 180);

    public static Shape<double> Bearing { get; } = Shapes.Number("degrees from 0 to 360, clockwise from north", 0, 360);

    public static Shape<double> Beamwidth { get; } = Shapes.Number("degrees above 0, up to 360", 0, 360, leastAllowed: false);

    public static Shape<double> Tilt { get; } = Shapes.Number("degrees from -90 to 90, downwards positive", -90, 90);

    public static Shape<double> Mismatch { get; } = Shapes.Number("a reflection coefficient from 0 to 1, as in 0.5", 0, 1);

    public static Shape<(int Lowest, int Highest)> Orders { get; } = Shapes.ValueOrInteger<(int, int)>(
        "orders from 2 to 9, as in 2-7", TryParseOrders);

    public static Shape<FileReference> File(string wanted) =>
        Shapes.TextOf(wanted).WithPlace().Select(static p => new FileReference(p.Value, p.File, p.At));

    public static Shape<string> NameOf(string wanted) => Shapes.TextOf(wanted);

    /// <summary>The name of a known type of cable, as written.</summary>
    public static Shape<string> FeedlineName { get; } = Shapes.Value<string>(
        "a type of cable such as rg213", static (string text, out string value, out string problem) =>
    {
        value = text;
        return Radio.Feedlines.FeedlineType.TryParse(text, out _, out problem);
    });

    private static bool TryParseActivity(string text, out Fraction value, out string problem)
    {
        bool good = Fraction.TryParsePart(text, out value, out problem);
        if (!good && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double bare) && bare is > 0 and <= 1)
        {
            problem = $"'{Quote.Short(text)}' has no unit; write {(bare * 100).ToString("0.####", CultureInfo.InvariantCulture)} %";
        }

        return good;
    }

    private static bool TryParseWidth(string text, out Frequency value, out string problem) =>
        Radio.Quantities.Frequency.TryParsePositive(text, out value, out problem) || Instead(ref problem, "12.5 kHz");

    private static bool TryParseBandwidth(string text, out Frequency value, out string problem) =>
        Radio.Quantities.Frequency.TryParseNotNegative(text, out value, out problem) || Instead(ref problem, "16 kHz");

    private static bool TryParseOffset(string text, out Frequency value, out string problem) =>
        Radio.Quantities.Frequency.TryParse(text, out value, out problem) || Instead(ref problem, "-180 Hz");

    /// <summary>A width is not written in megahertz: the remedy names the unit and the size that are usual there.</summary>
    private static bool Instead(ref string problem, string example)
    {
        string unit = example[(example.IndexOf(' ', StringComparison.Ordinal) + 1)..];
        problem = problem.Contains("has no unit; ", StringComparison.Ordinal)
            ? problem.Replace(" MHz", " " + unit, StringComparison.Ordinal)
            : problem.Replace("145.05 MHz", example, StringComparison.Ordinal).Replace("12.5 kHz", example, StringComparison.Ordinal);
        return false;
    }

    private static bool TryParseOrders(string text, out (int Lowest, int Highest) value, out string problem)
    {
        string[] parts = text.Split('-', StringSplitOptions.TrimEntries);
        value = default;
        problem = $"'{Quote.Short(text)}' is not a range of orders; write orders from 2 to 9, lowest first, as in 2-7";
        if (parts.Length is < 1 or > 2 || parts.Any(static p => p.Length != 1 || p[0] is < '2' or > '9'))
        {
            return false;
        }

        value = (parts[0][0] - '0', parts[^1][0] - '0');
        return value.Lowest <= value.Highest;
    }
}
