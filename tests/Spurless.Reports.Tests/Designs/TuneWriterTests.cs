using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using CsCheck;
using Spurless.Circuits.Parts;
using Spurless.Design.Optimising;
using Spurless.Design.Tuning;
using Spurless.Fit;
using Spurless.Reports.Designs;
using Spurless.Reports.Tests.Text;
using Spurless.Reports.Text;
using Spurless.Sites.Designs;

namespace Spurless.Reports.Tests.Designs;

/// <summary>What to turn, by chance: text and JSON say the same, and no figure is rounded to the wrong side of the mask.</summary>
public sealed partial class TuneWriterTests
{
    private static readonly Circuit Built = new()
    {
        Name = "as built",
        PortIn = "a",
        PortOut = "b",
        Parts =
        [
            new Capacitor { Name = "C1", From = "a", To = Circuit.Ground, Capacitance = PartValue.Known(12e-12) },
            new Inductor { Name = "L1", From = "a", To = "b", Inductance = PartValue.Known(24e-9) },
        ],
    };

    // Losses of a sweep that was measured reach a little beyond none, and margins lie beside the mask's edge.
    private static readonly Gen<DemandFinding> _demand =
        from kind in Gen.Enum<DemandKind>()
        from hertz in Gen.Double[30e6, 500e6]
        from needed in Gen.Double[0.5, 60]
        from off in Gen.OneOf<double>(Gen.OneOf(0.0, 1e-9, -1e-9, 0.0004, -0.0004, 0.004, -0.004, 0.06, -0.06), Gen.Double[-20, 20])
        from nothing in Gen.OneOf(-0.0, -0.001, -0.004)
        from none in Gen.Frequency<bool>((9, Gen.Const(false)), (1, Gen.Const(true)))
        select new DemandFinding(1, kind, hertz, hertz, hertz, needed, none ? nothing : needed + off);

    private static readonly Gen<TuneAnswer> _answer =
        from now in _demand.Array[1, 4]
        from after in _demand.Array[now.Length]
        from part in Gen.OneOf("C1", "L1").Array[0, 3]
        from change in Gen.OneOf<double>(Gen.OneOf(0.0004, -0.0004, 0.002, -0.002), Gen.Double[-0.5, 0.5]).Array[part.Length]
        from can in Gen.Bool
        select new TuneAnswer(
            Fitted(),
            new TuningAdvice(
                now.All(static f => f.Met), can,
                [.. part.Select((p, i) => new TuningMove(p, Value(p), Value(p) * (1 + change[i]), 1))], now, after),
            Built);

    [Fact]
    public void Text_of_any_advice_is_sound() => _answer.Sample(static answer => WrittenText.Sound(Text(answer)));

    [Fact]
    public void Json_of_any_advice_holds_its_demands_and_moves_in_order() => _answer.Sample(static answer =>
    {
        using MemoryStream stream = new();
        TuneWriter.WriteJson(answer, stream);
        JsonElement root = JsonDocument.Parse(stream.ToArray()).RootElement;
        JsonElement[] demands = [.. root.GetProperty("demands").EnumerateArray()];
        Assert.Equal(answer.Advice.Now.Count, demands.Length);
        for (int i = 0; i < demands.Length; i++)
        {
            Assert.Equal(answer.Advice.Now[i].AchievedDb, demands[i].GetProperty("now_db").GetDouble(), 5.1e-7);
            Assert.Equal(answer.Advice.After[i].AchievedDb, demands[i].GetProperty("after_db").GetDouble(), 5.1e-7);
        }

        Assert.Equal(answer.Advice.Moves.Select(static m => m.Part),
            root.GetProperty("turn").EnumerateArray().Select(static m => m.GetProperty("part").GetString()));
        Assert.Equal(TuneWriter.Answer(answer), root.GetProperty("says").GetString());
        Assert.Equal(answer.Advice.Meets, root.GetProperty("meets").GetBoolean());
    });

    /// <summary>What is short is never said to be nothing, nor what is to spare more than it is.</summary>
    [Fact]
    public void Answer_stays_on_its_side_of_the_mask() => _answer.Sample(static answer =>
    {
        foreach (string said in (string[])[TuneWriter.Answer(answer), TuneWriter.Stands(answer)])
        {
            double figure = double.Parse(FirstDb().Match(said).Groups[1].Value, CultureInfo.InvariantCulture);
            if (answer.Advice.Meets)
            {
                double spare = answer.Advice.Now.Min(static f => f.MarginDb);
                Assert.InRange(figure, 0, spare + 1e-9);
            }
            else
            {
                double least = answer.Advice.Now.Where(static f => !f.Met).Min(static f => -f.MarginDb);
                Assert.True(figure > 0 && figure >= least - 1e-9, said);
            }
        }
    });

    [Theory]
    [InlineData(0.034, "up by 3.4 %")]
    [InlineData(-0.1, "down by 10.0 %")]
    public void Way_is_up_or_down(double change, string expected) =>
        Assert.Equal(expected, TuneWriter.Way(new TuningMove("C1", 1, 1 + change, 1)));

    private static string Text(TuneAnswer answer)
    {
        using StringWriter text = new();
        TuneWriter.WriteText(answer, text, TextInk.None);
        return text.ToString();
    }

    private static double Value(string part) => part == "C1" ? 12e-12 : 24e-9;

    private static FitResult Fitted() => new()
    {
        Traced = Built,
        Fitted = Built,
        Sweep = FitSweep.OfMagnitudes("s", [100e6, 101e6], [-1, -2], []),
        Values = [],
        Inseparable = [],
        Traces = [],
        DelayS = (0, 0),
        RmsResidualDb = 0.01,
        IsStructured = false,
        Widened = 1,
        Tracings = [],
        Next = null,
        Remarks = [],
        IsComplete = true,
        Unexplained = 0,
    };

    [GeneratedRegex(@"(-?\d+\.\d+) dB")]
    private static partial Regex FirstDb();
}
