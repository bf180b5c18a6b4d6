using System.Globalization;

namespace Spurless.CommandLine;

/// <summary>
/// One line on standard error that says how far long work has come and how long it will still take. It appears only when the work
/// lasts, and leaves nothing behind. Safe for use by several threads.
/// </summary>
internal sealed class ProgressLine : IProgress<double>, IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(0.5);
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(0.1);

    private readonly Lock _lock = new();
    private readonly TextWriter? _to;
    private readonly string _what;
    private readonly TimeProvider _clock;
    private readonly long _start;
    private TimeSpan _next = Patience;
    private int _shown;

    /// <param name="to">Where it is drawn; null for nowhere.</param>
    /// <param name="what">What is being done.</param>
    /// <param name="clock">Measures how long it takes.</param>
    public ProgressLine(TextWriter? to, string what, TimeProvider clock)
    {
        _to = to;
        _what = what;
        _clock = clock;
        _start = clock.GetTimestamp();
    }

    /// <summary>Says how far the work has come.</summary>
    /// <param name="value">Fraction done, 0 to 1.</param>
    public void Report(double value) => Report(value, null);

    /// <summary>Says how far the work has come, and what of it so far.</summary>
    /// <param name="value">Fraction done, 0 to 1.</param>
    /// <param name="soFar">What stands behind it; null for nothing.</param>
    public void Report(double value, string? soFar)
    {
        if (_to is null)
        {
            return;
        }

        lock (_lock)
        {
            TimeSpan gone = _clock.GetElapsedTime(_start);
            if (gone < _next)
            {
                return;
            }

            _next = gone + Interval;
            double done = Math.Clamp(value, 0, 1);
            string left = done is > 0.01 and < 1 ? $", {Rounded(gone * ((1 - done) / done))} left" : "";
            Draw(string.Create(CultureInfo.InvariantCulture, $"{_what} ... {done * 100:0} %{left}{(soFar is null ? "" : ", " + soFar)}"));
        }
    }

    public void Dispose()
    {
        lock (_lock)
        {
            if (_shown > 0)
            {
                Draw("");
                _to!.Write('\r');
                _shown = 0;
            }
        }
    }

    private void Draw(string line)
    {
        _to!.Write('\r' + line + new string(' ', Math.Max(0, _shown - line.Length)));
        _shown = line.Length;
    }

    private static string Rounded(TimeSpan left) => left.TotalSeconds < 90
        ? string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(left.TotalSeconds):0} s")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Ceiling(left.TotalMinutes):0} min");
}
