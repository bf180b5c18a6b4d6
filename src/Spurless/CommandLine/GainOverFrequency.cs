using Spurless.Radio.Quantities;

namespace Spurless.CommandLine;

/// <summary>A gain for all frequencies, or at several with commas between them.</summary>
/// <param name="Points">By rising frequency; a gain for all stands at 1 Hz.</param>
internal readonly record struct GainOverFrequency(IReadOnlyList<DecibelsAt> Points)
{
    /// <summary>Reads it.</summary>
    public static bool TryParse(string text, out GainOverFrequency value, out string problem)
    {
        value = default;
        if (Decibels.TryParse(text, out Decibels one, out problem))
        {
            value = new GainOverFrequency([new DecibelsAt(one, Frequency.FromHertz(1))]);
            return true;
        }

        List<DecibelsAt> points = [];
        foreach (string part in text.Split(','))
        {
            if (!DecibelsAt.TryParse(part, out DecibelsAt point, out problem))
            {
                return false;
            }

            points.Add(point);
        }

        value = new GainOverFrequency([.. points.OrderBy(static p => p.Frequency)]);
        return true;
    }
}
