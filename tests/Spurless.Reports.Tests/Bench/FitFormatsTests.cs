using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using System.Text.Json;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Circuits.Touchstone;
using Spurless.Circuits.TwoPorts;
using Spurless.Drawing.Plotting;
using Spurless.Drawing.Responses;
using Spurless.Files.Diagnostics;
using Spurless.Fit;
using Spurless.Reports.Bench;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Fits;
using Spurless.Tests.Common.Fixtures;

namespace Spurless.Reports.Tests.Bench;

/// <summary>
/// What a fit found, by chance, in every format: values with their intervals, known only where they are, and no sign before nothing.
/// </summary>
public sealed class FitFormatsTests
{
    private static readonly double[] _at = [.. Enumerable.Range(0, 30).Select(static i => 140e6 + (i * 1e6))];

    private static readonly Gen<FittedValue> _value =
        from part in Gen.OneOf("C1", "=L1", "C, 2")
        from quantity in Gen.OneOf(CircuitQuantity.CapacitanceF, CircuitQuantity.InductanceH, CircuitQuantity.Q)
        from value in Gen.Double[1, 900]
        from down in Gen.OneOf<double>(Gen.Double[0, 0.3], Gen.Const(0.0))
        from up in Gen.OneOf<double>(Gen.Double[0, 3], Gen.OneOf(0.0, 50.0))
        from doubted in Gen.Frequency<bool>((5, Gen.Const(false)), (1, Gen.Const(true)))
        let scale = quantity switch { CircuitQuantity.CapacitanceF => 1e-12, CircuitQuantity.InductanceH => 1e-9, _ => 1 }
        select new FittedValue(part, quantity, value * scale, value * scale * (1 - down), value * scale * (1 + up)) { Doubted = doubted };

    private static readonly Gen<FitAnswer> _answer =
        from values in _value.Array[0, 5]
        from gain in Gen.OneOf<double>(Gen.Double[-3, 3], Gen.OneOf(0.0, -0.0, 0.0004, -0.0004))
        from turn in Gen.OneOf<double>(Gen.Double[-180, 180], Gen.OneOf(0.0, 0.004, -0.004))
        from delay in Gen.OneOf<double>(Gen.Double[-100, 100], Gen.OneOf(0.0, -0.04, 0.04))
        from magnitude in Gen.Bool
        from structured in Gen.Bool
        from complete in Gen.Bool
        from unexplained in Gen.Double[0, 0.5]
        select Answer(values, gain, turn, delay, magnitude, structured, complete, unexplained);

    [Fact]
    public void Text_of_any_fit_has_no_broken_figure_and_marks_known_what_is_known() => _answer.Sample(static answer =>
    {
        using StringWriter to = new();
        FitWriter.WriteText(answer, to, TextInk.None);
        Assert.All(to.ToString().Split('\n'), WrittenText.Figures);
        Assert.DoesNotMatch(@"[+-]0\.0*( |$|,)", to.ToString());
        string says = FitWords.Answer(answer.Result);
        int known = answer.Result.Values.Count(static v => v.Identifiable);
        Assert.Contains(
            known == answer.Result.Values.Length ? $"all {known} values found" : $"{known} of {answer.Result.Values.Length} values found",
            says,
            StringComparison.Ordinal);
        Assert.Equal(!answer.Result.IsComplete, says.EndsWith("Stopped early: the best so far.", StringComparison.Ordinal));
        Assert.Equal(answer.Result.ExplainsNothing, says.Contains("does not explain the sweep", StringComparison.Ordinal));
        Assert.Equal(answer.Result.ExplainsNothing, FitWriter.Refuse(answer) is not null);
    });

    [Fact]
    public void Json_and_csv_of_any_fit_hold_the_same_values() => _answer.Sample(static answer =>
    {
        using MemoryStream stream = new();
        FitWriter.WriteJson(answer, stream);
        using StringWriter csv = new();
        FitWriter.WriteCsv(answer, csv);
        List<List<string>> rows = WrittenText.Csv(csv.ToString());
        JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
        JsonElement[] values = [.. root.GetProperty("parameters").EnumerateArray()];
        Assert.Equal(answer.Result.Values.Length, values.Length);
        Assert.Equal(values.Length, rows.Count - 1);
        foreach ((FittedValue value, JsonElement json, List<string> row) in answer.Result.Values.Zip(values, rows.Skip(1)))
        {
            Assert.Equal(value.Part, json.GetProperty("part").GetString());
            Assert.Equal(value.Value, json.GetProperty("value").GetDouble());
            Assert.Equal(value.Identifiable, json.GetProperty("identifiable").GetBoolean());

            // Docs: identifiable means that the upper end is at most twice the lower one.
            Assert.True(!value.Identifiable || value.High <= 2 * value.Low);
            Assert.All(row, WrittenText.NoFormula);
            foreach (string key in (string[])["value", "low", "high"])
            {
                double figure = json.GetProperty(key).GetDouble();
                Assert.Equal(figure, double.Parse(row[rows[0].IndexOf(key)], CultureInfo.InvariantCulture), 1e-5 * Math.Abs(figure));
            }

            Assert.Equal(value.Identifiable ? "true" : "false", row[rows[0].IndexOf("identifiable")]);
        }

        Assert.Equal(FitWords.Answer(answer.Result), root.GetProperty("says").GetString());
    });

    [Fact]
    public void Spread_says_how_far_the_value_may_lie_either_way_or_that_it_is_open() => _value.Sample(static value =>
    {
        string says = FitSheetView.Spread(value);
        double up = 100 * ((value.High / value.Value) - 1);
        Assert.Equal(up > 1000, says == "open");
        if (says != "open")
        {
            string[] parts = says.Replace("%", "", StringComparison.Ordinal).Split(" / ");
            Assert.Equal(
                100 * (1 - (value.Low / value.Value)), double.Parse(parts[0].TrimStart('\u2212'), CultureInfo.InvariantCulture), 0.00501);
            Assert.Equal(up, double.Parse(parts[1].TrimStart('+'), CultureInfo.InvariantCulture), 0.00501);
            Assert.DoesNotContain("-", says, StringComparison.Ordinal);
        }
    });

    [Fact]
    public void Plots_of_a_fit_hold_the_sweeps_points_and_the_fitted_curve_within_their_scales() => _answer.Sample(
        static answer =>
        {
            FitSheetView view = new(answer.Result);
            CircuitTwoPort fitted = new(CircuitSolver.Create(answer.Result.Fitted));
            Assert.Equal(
                answer.Result.Traces.Select(static t => t.Parameter.ToString().ToLowerInvariant()), view.Plots.Select(static p => p.Id));
            foreach ((string id, ResponsePlotModel model) in view.Plots)
            {
                Assert.Equal((_at[0], _at[^1]), (model.FromHz, model.ToHz));
                Assert.Equal(_at.Length, model.Measured.Count);
                Assert.True(model.Low < model.High);
                Assert.All(model.Measured, m => Assert.InRange(m.Value, model.Low - 1e-9, model.High + 1e-9));
                Assert.All(_at, f => Assert.Equal(20 * Math.Log10(Of(fitted.At(f), id).Magnitude), model.Quantity(f), 1e-9));
            }

            foreach ((string _, ResponsePlotModel model) in view.Residuals)
            {
                Assert.All(model.Measured, m => Assert.InRange(m.Value, model.Low - 1e-9, model.High + 1e-9));
                Assert.InRange(model.Quantity(150e6), model.Low - 1e-9, model.High + 1e-9);
            }
        },
        iter: 40);

    /// <summary>A fit that runs: its best difference only falls, and the steps drawn never rise.</summary>
    [Fact]
    public void Progress_of_a_real_fit_falls_and_is_drawn_as_steps_down()
    {
        Circuit traced = Topologies.Of("ladder") with
        {
            Parts =
            [
                .. Topologies.Of("ladder").Parts.Select(static p => p is Inductor l
                    ? l with { Inductance = PartValue.Unknown(10e-9, 60e-9) } : p),
            ],
        };
        CircuitTwoPort real = new(CircuitSolver.Create(Topologies.Of("ladder")));
        FitSweep sweep = FitSweep.OfMagnitudes("made", [.. _at], [.. _at.Select(f => 20 * Math.Log10(real.At(f).S21.Magnitude))], []);
        FitProgressPlot plot = new(sweep);
        Assert.Null(plot.Draw(400, 100));
        List<double> best = [];
        FitAnswer answer = FitService.Ask(
            new FitQuestion { Circuit = traced, Sweep = sweep, Options = new FitOptions { Starts = 4, Threads = 1, Advise = false } },
            new Reported(p =>
            {
                plot.Add(p);
                best.Add(plot.Best?.DifferenceDb ?? double.PositiveInfinity);
            })).Answer!;
        Assert.NotNull(answer);
        Assert.NotEmpty(best);
        Assert.Equal(best.OrderDescending(), best);
        Scene? scene = plot.Draw(400, 100);
        Assert.NotNull(scene);
        (PlotPoint From, PlotPoint To)[] steps =
        [
            .. Stretches(scene.Items.OfType<ScenePath>().Single(static p => p.Class == "curve").Data),
        ];
        Assert.All(steps, static s => Assert.True(s.To.X >= s.From.X - 0.11 && s.To.Y >= s.From.Y - 0.11, $"{s}"));
        WrittenText.Figures(scene.Description);
    }

    private static Complex Of(ScatteringMatrix s, string id) => id switch { "s11" => s.S11, "s12" => s.S12, "s22" => s.S22, _ => s.S21 };

    private static IEnumerable<(PlotPoint, PlotPoint)> Stretches(string data)
    {
        double[] n = [.. data.Split(['M', 'L', ' '], StringSplitOptions.RemoveEmptyEntries).Select(static t =>
            double.Parse(t, CultureInfo.InvariantCulture))];
        for (int i = 2; i + 1 < n.Length; i += 2)
        {
            yield return (new(n[i - 2], n[i - 1]), new(n[i], n[i + 1]));
        }
    }

    private static FitAnswer Answer(
        FittedValue[] values, double gainDb, double turn, double delayPs, bool magnitude, bool structured, bool complete,
        double unexplained)
    {
        Circuit circuit = Topologies.Of("ladder");
        CircuitTwoPort network = new(CircuitSolver.Create(circuit));
        double[] db = [.. _at.Select(f => 20 * Math.Log10(network.At(f).S21.Magnitude))];
        FitSweep sweep = magnitude
            ? FitSweep.OfMagnitudes("made", [.. _at], [.. db], [])
            : FitSweep.From(Touchstone(network), 50);
        double factor = Math.Pow(10, gainDb / 20);
        FitResult result = new()
        {
            Traced = circuit with { Name = "=made" },
            Fitted = circuit,
            Sweep = sweep,
            Values = [.. values],
            Inseparable = [],
            Traces =
            [
                .. sweep.Traces.Select(t => Trace(
                    t.Parameter, Complex.FromPolarCoordinates(factor, magnitude ? 0 : turn * Math.PI / 180),
                    magnitude ? [.. t.Decibels.Select(static d => (Complex)d)] : t.Values)),
            ],
            DelayS = magnitude ? (0, 0) : (delayPs * 1e-12, -delayPs * 1e-12),
            RmsResidualDb = magnitude ? 0.02 : -60.04,
            IsStructured = structured,
            Widened = 1,
            Tracings = [],
            Next = null,
            Remarks = [],
            IsComplete = complete,
            Unexplained = unexplained,
        };
        return new FitAnswer(new FitQuestion { Circuit = circuit, Sweep = sweep }, result);
    }

    private static TraceFit Trace(SweepParameter parameter, Complex gain, ImmutableArray<Complex> model) => new()
    {
        Parameter = parameter,
        Noise = 0.01,
        Residual = 0.02,
        Structure = 1,
        Gain = gain,
        LeftOut = 0,
        FloorDb = null,
        Model = model,
    };

    private static TouchstoneData Touchstone(CircuitTwoPort network)
    {
        System.Text.StringBuilder text = new("# HZ S RI R 50\n");
        foreach (double f in _at)
        {
            ScatteringMatrix s = network.At(f);
            text.Append(CultureInfo.InvariantCulture, $"{f:R} {s.S11.Real:R} {s.S11.Imaginary:R} {s.S21.Real:R} {s.S21.Imaginary:R} ");
            text.Append(CultureInfo.InvariantCulture, $"{s.S12.Real:R} {s.S12.Imaginary:R} {s.S22.Real:R} {s.S22.Imaginary:R}\n");
        }

        using MemoryStream stream = new(System.Text.Encoding.ASCII.GetBytes(text.ToString()));
        return TouchstoneReader.Read(stream, "made.s2p", new DiagnosticBag())!;
    }

    private sealed class Reported(Action<FitProgress> add) : IProgress<FitProgress>
    {
        public void Report(FitProgress value) => add(value);
    }
}
