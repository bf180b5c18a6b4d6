using System.Globalization;
using CsCheck;
using Spurless.Reports.Bench;
using Spurless.Reports.Tests.Text;
using Spurless.Sites.Coils;

namespace Spurless.Reports.Tests.Bench;

/// <summary>A coil's sentence against its figures: one turn is a turn, and what is printed is what was computed.</summary>
public sealed class CoilSheetTests
{
    private static readonly Gen<CoilSheet> _air = Gen.Select(
        Gen.OneOf<double>(Gen.Double[0.5, 20], Gen.OneOf(1.0, 2, 0.999, 1.004)), Gen.Double[3, 20], Gen.Double[0.4, 2],
        Gen.Double[1, 300].Nullable(0.4), Gen.Double[0, 10]).Select(static (turns, diameter, wire, megahertz, lead) => CoilService.Ask(
            new AirCoilQuestion
            {
                Turns = turns,
                DiameterM = diameter * 1e-3,
                LengthM = 1.5 * Math.Max(1, turns) * wire * 1e-3,
                WireM = wire * 1e-3,
                LeadM = lead * 1e-3,
                FrequencyHz = megahertz * 1e6,
            }).Answer).Where(static a => a is not null).Select(static a => CoilSheet.Of(a!));

    [Fact]
    public void Sentence_of_any_air_coil_says_its_turns_and_its_inductance() => _air.Sample(static sheet =>
    {
        WrittenText.Figures(sheet.Sentence);
        string[] words = sheet.Sentence.Split(' ');
        Assert.Equal(words[0] == "1" ? "turn" : "turns", words[1]);
        CoilFigure turns = sheet.Figures.Single(static f => f.Key == "turns"), henries = sheet.Figures.Single(static f => f.Key
            == "inductance_h");
        Assert.Equal(turns.Value!.Value, double.Parse(words[0], CultureInfo.InvariantCulture), 0.00501);
        Assert.Contains(" are " + henries.Text, sheet.Sentence, StringComparison.Ordinal);
        Assert.Equal(sheet.Figures.Count, sheet.Figures.Select(static f => f.Key).Distinct().Count());
    });

    [Fact]
    public void Figures_of_any_air_coil_read_back_from_their_texts() => _air.Sample(static sheet =>
    {
        foreach (CoilFigure figure in sheet.Figures.Where(static f => f.Value is not null && f.Unit.Length > 0))
        {
            string[] parts = figure.Text.Split(' ');
            double scale = parts[1][..^figure.Unit.Length] switch
            {
                "f" => 1e-15,
                "p" => 1e-12,
                "n" => 1e-9,
                "u" => 1e-6,
                "m" => 1e-3,
                "" => 1,
                "k" => 1e3,
                "M" => 1e6,
                "G" => 1e9,
                var other => throw new InvalidOperationException(other),
            };
            double value = figure.Value!.Value;
            // Four figures, or a thousandth of the smallest prefix, pico.
            Assert.Equal(value, scale * double.Parse(parts[0], CultureInfo.InvariantCulture), Math.Max(0.0006 * Math.Abs(value), 5.1e-16));
        }

        // A length is where its key says so, and the lengths agree: the former is the diameter less the wire.
        double Of(string key) => sheet.Figures.Single(f => f.Key == key).Value!.Value;
        Assert.Equal(Of("diameter_m") - Of("wire_m"), Of("former_m"), 1e-12);
    });

    [Theory]
    [InlineData(1, "1 turn through a core")]
    [InlineData(2, "2 turns through a core")]
    [InlineData(1.5, "1.5 turns through a core")]
    public void Ring_core_of_one_turn_has_a_turn(double turns, string begins)
    {
        CoilSheet sheet = CoilSheet.Of(CoilService.Ask(new RingCoreQuestion
        {
            InductancePerTurnSquaredH = 4e-9,
            Turns = turns,
        }).Answer!);
        Assert.StartsWith(begins, sheet.Sentence, StringComparison.Ordinal);

        // L = A_L n^2, the definition of A_L.
        Assert.Equal(4e-9 * turns * turns, sheet.Figures.Single(static f => f.Key == "inductance_h").Value!.Value, 1e-15);
    }
}
