using System.Globalization;
using Spurless.Reports.Text;

namespace Spurless.Acceptance.House.Toy;

/// <summary>Writes a quarter wave: a sentence, or JSON of the format <c>toy/1</c>.</summary>
public static class QuarterWaveWriter
{
    /// <summary>The answer in a sentence.</summary>
    public static string Sentence(QuarterWaveAnswer answer) => string.Create(
        CultureInfo.InvariantCulture,
            $"A quarter wave of {answer.Question.FrequencyHz / 1e6:0.####} MHz is {answer.LengthM:0.000} m long.");

    /// <summary>Writes the sentence.</summary>
    public static void WriteText(QuarterWaveAnswer answer, TextWriter to) => to.Write(Sentence(answer) + "\n");

    /// <summary>Writes JSON, in UTF-8 with a final line feed.</summary>
    public static void WriteJson(QuarterWaveAnswer answer, Stream to) => JsonText.Write(to, json =>
    {
        json.WriteString("format", "toy/1");
        JsonText.Number(json, "frequency_hz", answer.Question.FrequencyHz);
        JsonText.Number(json, "length_m", answer.LengthM);
    });
}
