using System.Globalization;
using System.Text.Json;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Stress;
using Spurless.Reports.Bench;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Coils;
using Spurless.Sites.Stresses;
using Spurless.Sites.Tolerances;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Bench;

/// <summary>Stress, tolerance and coils in every format: powers add up as printed, the formats say the same.</summary>
public sealed class BenchWritersTests
{
    private static readonly Gen<StressAnswer> _stress =
        from circuit in Gen.OneOf("ladder", "traps in shunt and series", "notch by a tank under a capacitor", "bridged T")
        from power in Gen.Double[-3, 3]
        from megahertz in Gen.Double[100, 200]
        from swr in Gen.Double[1, 10].Nullable(0.5)
        let answer = StressService.Ask(new StressQuestion
        {
            Circuit = Named(Topologies.Of(circuit)),
            PowerW = Math.Pow(10, power),
            FrequencyHz = megahertz * 1e6,
            Load = swr is { } s ? StressLoad.Swr(s) : StressLoad.Matched,
        }).Answer
        where answer is not null
        select answer;

    private static readonly Gen<CoilAnswer> _coil = Gen.OneOf<CoilQuestion>(
        Gen.Select(Gen.Double[1, 20], Gen.Double[3, 20], Gen.Double[0.4, 2], Gen.Double[1, 300].Nullable(0.5), Gen.Double[0, 10],
            static (turns, diameter, wire, megahertz, lead) => (CoilQuestion)new AirCoilQuestion
            {
                Turns = turns,
                DiameterM = diameter * 1e-3,
                LengthM = 1.5 * turns * wire * 1e-3,
                WireM = wire * 1e-3,
                LeadM = lead * 1e-3,
                FrequencyHz = megahertz * 1e6,
            }),
        Gen.Select(Gen.Double[1, 60], Gen.Double[1, 100], static (al, turns) => (CoilQuestion)new RingCoreQuestion
        {
            InductancePerTurnSquaredH = al * 1e-9,
            Turns = turns,
        }),
        Gen.Select(Gen.Double[50, 500], Gen.Double[20, 60], static (megahertz, size) => (CoilQuestion)new HelicalQuestion
        {
            FrequencyHz = megahertz * 1e6,
            ShieldM = size * 1e-3,
        }),
        Gen.Select(Gen.Double[100, 500], Gen.Double[5, 20], Gen.Double[0, 30], static (megahertz, inner, end) =>
            (CoilQuestion)new CoaxialQuestion
            {
                FrequencyHz = megahertz * 1e6,
                InnerM = inner * 1e-3,
                OuterM = 3.6 * inner * 1e-3,
                EndF = end * 1e-12,
            })).Select(static q => CoilService.Ask(q).Answer).Where(static a => a is not null).Select(static a => a!);

    [Fact]
    public void Stress_of_any_circuit_prints_powers_that_add_up() => _stress.Sample(static answer =>
    {
        (double delivered, double reflected, double heat, double available) = StressWriter.Printed(answer.Result);
        Assert.Equal(Math.Round(available, 2), Math.Round(delivered + reflected + heat, 2), 1e-9);
        Assert.True(delivered >= 0 && reflected >= 0 && heat >= 0);
        // Each is that of the result, to what rounding moves: a hundredth, three of them for the largest.
        Assert.Equal(answer.Result.DeliveredW, delivered, 0.0201);
        Assert.Equal(answer.Result.ReflectedW, reflected, 0.0201);
        Assert.Equal(answer.Result.DissipatedW, heat, 0.0201);
        using StringWriter text = new();
        StressWriter.WriteText(answer, text, TextInk.None);
        WrittenText.Sound(text.ToString());
    });

    [Fact]
    public void Stress_in_json_and_csv_lists_the_same_parts_and_no_formula() => _stress.Sample(static answer =>
    {
        using MemoryStream stream = new();
        StressWriter.WriteJson(answer, stream);
        using StringWriter csv = new();
        StressWriter.WriteCsv(answer, csv);
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
        JsonElement[] parts = [.. root.GetProperty("parts").EnumerateArray()];
        Assert.Equal(answer.Question.Circuit.Parts.Count, parts.Length);
        Assert.Equal(parts.Length, rows.Count - 1);
        foreach ((JsonElement json, List<string> row) in parts.Zip(rows.Skip(1)))
        {
            Assert.Equal(rows[0].Count, row.Count);
            Assert.All(row, WrittenText.NoFormula);
            Assert.All(row, WrittenText.Figures);
            Assert.Equal(json.GetProperty("peak_voltage_v").GetDouble(), double.Parse(row[1], CultureInfo.InvariantCulture), 0.51e-6);
            Assert.Equal(json.GetProperty("limit_passed").GetBoolean() ? "true" : "false", row[^1]);
        }

        // What may be transmitted is never more than what the first part bears.
        if (root.GetProperty("may_transmit").ValueKind == JsonValueKind.True)
        {
            Assert.True(root.GetProperty("safe_power_w").GetDouble() >= answer.Question.PowerW * (1 - 1e-9));
            Assert.DoesNotContain(parts, static p => p.GetProperty("limit_passed").GetBoolean());
        }
    });

    [Fact]
    public void Coil_of_any_kind_says_the_same_in_text_json_and_csv() => _coil.Sample(static answer =>
    {
        using StringWriter text = new(), csv = new();
        using MemoryStream stream = new();
        CoilWriter.WriteText(answer, text, TextInk.None);
        CoilWriter.WriteCsv(answer, csv);
        CoilWriter.WriteJson(answer, stream);
        WrittenText.Sound(text.ToString());
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        Assert.Equal(2, rows.Count);
        Assert.Equal(rows[0].Count, rows[1].Count);
        JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
        for (int i = 1; i < rows[0].Count; i++)
        {
            JsonElement value = root.GetProperty(rows[0][i]);
            Assert.Equal(rows[1][i].Length == 0, value.ValueKind == JsonValueKind.Null);
            if (rows[1][i].Length > 0)
            {
                double figure = value.GetDouble();
                Assert.Equal(figure, double.Parse(rows[1][i], CultureInfo.InvariantCulture), Math.Abs(figure) * 1e-15);
            }
        }

        // A figure stands apart from its words.
        CoilSheet sheet = CoilSheet.Of(answer);
        foreach (CoilFigure figure in sheet.Figures.Where(static f => f.Value is not null))
        {
            Assert.True(figure.Words.Length < 42, $"'{figure.Words}' runs into its figure");
            Assert.False(double.IsNaN(figure.Value!.Value), figure.Key);
        }
    });

    [Fact]
    public void Tolerance_of_a_filter_says_the_same_in_json_and_csv_and_its_percentiles_are_in_order()
    {
        ToleranceAnswer answer = ToleranceService.Ask(new ToleranceQuestion
        {
            Circuit = Topologies.Of("ladder"),
            Samples = 200,
            Others = new OtherTolerance(PartTolerance.Uniform(0.05), "5 %"),
        }).Answer!;
        using MemoryStream stream = new();
        ToleranceWriter.WriteJson(answer, stream);
        using StringWriter csv = new(), text = new();
        ToleranceWriter.WriteCsv(answer, csv);
        ToleranceWriter.WriteText(answer, text, TextInk.None);
        WrittenText.Sound(text.ToString());
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        JsonElement[] bands = [.. JsonDocument.Parse(stream.ToArray()).RootElement.GetProperty("bands").EnumerateArray()];
        Assert.Equal(bands.Length, rows.Count - 1);
        foreach ((JsonElement band, List<string> row) in bands.Zip(rows.Skip(1)))
        {
            double[] figures = [.. row.Select(static c => double.Parse(c, CultureInfo.InvariantCulture))];
            Assert.True(figures[2] <= figures[3] && figures[3] <= figures[4], string.Join(',', row));
            Assert.True(figures[6] <= figures[7] && figures[7] <= figures[8], string.Join(',', row));
            Assert.Equal(band.GetProperty("s21_db").GetProperty("p50").GetDouble(), figures[3], 0.51e-6);
            Assert.Equal(band.GetProperty("s11_db").GetProperty("nominal").GetDouble(), figures[5], 0.51e-6);
        }
    }

    // A part's name is the user's: one is a formula, one has a comma.
    private static Circuit Named(Circuit circuit) => circuit with
    {
        Parts =
        [
            .. circuit.Parts.Select(static (p, i) => i switch { 0 => p with { Name = "=C1" }, 1 => p with { Name = "a, b" }, _ => p }),
        ],
    };
}
