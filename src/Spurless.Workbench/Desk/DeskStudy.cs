using System.Diagnostics.CodeAnalysis;
using Spurless.Circuits.Solving;
using Spurless.Mixing.Search;
using Spurless.Sites.Studies;

namespace Spurless.Workbench.Desk;

/// <summary>
/// A study of one receiver that runs beside the page: how far it has come, how long it still takes, and a way to stop it.
/// </summary>
[SuppressMessage(
    "Design", "CA1001", Justification = "a source without a timer holds nothing to give back, and pages ask for it after its end")]
public sealed class DeskStudy : IProgress<SearchProgress>
{
    private readonly CancellationTokenSource _stop = new();
    private readonly TimeProvider _time;
    private readonly long _began;
    private double _fraction;
    private int _followers;

    internal DeskStudy(StudyDesk desk, int receiver, DeskSettings settings, StudyOptions options, TimeProvider time)
    {
        _time = time;
        _began = time.GetTimestamp();
        Outcome = Task.Run(() => RunAsync(desk, receiver, settings, options));
    }

    /// <summary>Ends with what was found, or with why nothing was; never fails.</summary>
    public Task<DeskOutcome> Outcome { get; }

    /// <summary>Whether it was stopped before its end.</summary>
    public bool Stopped => _stop.IsCancellationRequested;

    /// <summary>How far it has come, 0 to 1.</summary>
    public double Fraction => Volatile.Read(ref _fraction);

    /// <summary>Time since its beginning.</summary>
    public TimeSpan Elapsed => _time.GetElapsedTime(_began);

    /// <summary>Time it still takes if the rest goes as the beginning did; null as long as that cannot be said.</summary>
    public TimeSpan? Left => new SearchProgress(Fraction, 0).Remaining(Elapsed);

    /// <summary>A page begins to wait for it.</summary>
    public void Follow() => Interlocked.Increment(ref _followers);

    /// <summary>A page waits for it no longer: with the last one it stops, where it has not ended.</summary>
    public void Leave()
    {
        if (Interlocked.Decrement(ref _followers) == 0 && !Outcome.IsCompleted)
        {
            Stop();
        }
    }

    /// <summary>Stops it.</summary>
    public void Stop() => _stop.Cancel();

    /// <inheritdoc/>
    public void Report(SearchProgress value) => Volatile.Write(ref _fraction, value.Fraction);

    private async Task<DeskOutcome> RunAsync(StudyDesk desk, int receiver, DeskSettings settings, StudyOptions options)
    {
        try
        {
            return new DeskOutcome(
                await desk.StudyOneAsync(receiver, settings, options, this, _stop.Token).ConfigureAwait(false), null);
        }
        catch (OperationCanceledException)
        {
            return new DeskOutcome(null, "Stopped; nothing was found yet.");
        }
        catch (TooManyProductsException e)
        {
            return new DeskOutcome(null, e.Message);
        }
        catch (CircuitException e)
        {
            return new DeskOutcome(null, $"{e.Fault.What}; {e.Fault.Remedy}");
        }
    }
}

/// <summary>What a study came to.</summary>
/// <param name="Findings">What lands on the receiver; null where it could not be found.</param>
/// <param name="Problem">Why not; null where it was found.</param>
public sealed record DeskOutcome(ReceiverFindings? Findings, string? Problem);
