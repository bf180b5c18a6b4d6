using System.Globalization;
using Microsoft.AspNetCore.Components;
using Spurless.Radio.Quantities;

namespace Spurless.Pages.Bench;

/// <summary>What the bench asks about the transmitter behind the circuit: its power, frequency and line.</summary>
public sealed partial class BenchView
{
    private string? _wrong;
    private string? _typed;
    private string? _wrongSays;

    private void TypePower(ChangeEventArgs e)
    {
        string text = e.Value as string ?? "";
        if (BenchAddress.TryPower(text, out double watts, out string problem))
        {
            Loaded(_view with { PowerW = watts });
        }
        else
        {
            (_wrong, _typed, _wrongSays) = ("power", text, problem);
        }
    }

    private void TypeFrequency(ChangeEventArgs e)
    {
        string text = e.Value as string ?? "";
        if (Frequency.TryParsePositive(text, out Frequency frequency, out string problem))
        {
            Loaded(_view with { TransmitHz = frequency.Hertz });
        }
        else
        {
            (_wrong, _typed, _wrongSays) = ("at", text, problem);
        }
    }

    private void Loaded(BenchAddress view)
    {
        (_wrong, _typed, _wrongSays) = (null, null, null);
        Move(view);
        _state!.Load();
        Address();
    }

    // Twenty steps a decade from 0.1 W.
    private void SlidePower(string? step)
    {
        if (int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out int at))
        {
            double watts = 0.1 * Math.Pow(10, at / 20.0);
            double digits = Math.Pow(10, Math.Floor(Math.Log10(watts)) - 1);
            (_wrong, _typed, _wrongSays) = (null, null, null);
            Move(_view with { PowerW = Math.Round(watts / digits) * digits });
            _state!.Load();
        }
    }

    private void SlideSwr(string? ratio)
    {
        if (double.TryParse(ratio, NumberStyles.Float, CultureInfo.InvariantCulture, out double swr) && swr is >= 1 and <= 10)
        {
            Move(_view with { Swr = swr });
            _state!.Load();
        }
    }

    private static string Watts(double watts) => watts.ToString("0.###", CultureInfo.InvariantCulture) + " W";

    private static string Ratio(double swr) => swr.ToString("0.0##", CultureInfo.InvariantCulture);

    private static string Steps(double watts) =>
        Math.Clamp(Math.Round(20 * Math.Log10(watts / 0.1)), 0, 60).ToString("0", CultureInfo.InvariantCulture);
}
