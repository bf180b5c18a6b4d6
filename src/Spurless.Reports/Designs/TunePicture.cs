using Spurless.Circuits.Parts;
using Spurless.Design.Questions;
using Spurless.Drawing.Responses;
using Spurless.Fit;
using Spurless.Sites.Designs;

namespace Spurless.Reports.Designs;

/// <summary>The pictures of a built filter that is being tuned: its sweep, the fit through it, and what turning brings.</summary>
public static class TunePicture
{
    private const int MostReadings = 300;

    /// <summary>Gain about the pass-band, or over all that is asked.</summary>
    /// <param name="answer">What to turn.</param>
    /// <param name="question">The requirement.</param>
    /// <param name="wide">Whether all that is asked is shown.</param>
    public static ResponsePlotModel Of(TuneAnswer answer, DesignQuestion question, bool wide)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(question);
        bool turns = answer.Advice.Moves.Count > 0;
        DesignPicture picture = DesignPicture.Of(
            question, [], answer.Fit.Fitted, turns ? ("when all is turned", answer.Turned) : null);
        ResponsePlotModel model = wide ? picture.Wide : picture.Close;
        return model with
        {
            Title = wide ? "The sweep against what is asked" : "The sweep about the pass-band",
            CurveName = "fitted to the sweep",
            Overlay = model.Overlay with
            {
                Measured = Readings(answer.Fit.Sweep, model),
                MeasuredWords = $"measured, {answer.Fit.Sweep.Name}",
            },
        };
    }

    /// <summary>How a part is turned by hand that way: which way its value goes, in the words of the bench.</summary>
    public static string Hand(Circuit circuit, string part, double change)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        bool up = change > 0;
        return circuit.Parts.FirstOrDefault(p => p.Name == part) switch
        {
            Capacitor => up ? "more: plates further in" : "less: plates further out",
            Inductor => up ? "more: press its turns together" : "less: pull its turns apart",
            Coupling => up ? "more: bring the coils nearer" : "less: move the coils apart",
            Line or Stub => up ? "longer" : "shorter",
            _ => up ? "more" : "less",
        };
    }

    private static PlotReading[] Readings(FitSweep sweep, ResponsePlotModel model)
    {
        if (sweep.Traces.FirstOrDefault(static t => t.Parameter == SweepParameter.S21) is not { } gain)
        {
            return [];
        }

        int[] within =
        [
            .. Enumerable.Range(0, sweep.FrequenciesHz.Length)
                .Where(i => sweep.FrequenciesHz[i] >= model.FromHz && sweep.FrequenciesHz[i] <= model.ToHz),
        ];
        int step = Math.Max(1, within.Length / MostReadings);
        return [.. within.Where((_, at) => at % step == 0).Select(i => new PlotReading(sweep.FrequenciesHz[i], gain.Decibels[i]))];
    }
}
