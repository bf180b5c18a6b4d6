using Microsoft.AspNetCore.SignalR;

namespace Spurless.Pages.Shell;

/// <summary>
/// Slows a page down that tells more than a hand can do. Nothing is dropped: while one message waits the connection is not read further, so
/// that the sender waits too.
/// </summary>
/// <param name="time">The clock.</param>
internal sealed class EventRate(TimeProvider time) : IHubFilter
{
    /// <summary>Messages a second that are taken for as long as one likes; a slider in motion tells about 60.</summary>
    public const int PerSecond = 200;

    /// <summary>Messages taken at once after a rest: pieces of a dropped file.</summary>
    public const int AtOnce = 400;

    private static readonly object Place = new();

    /// <inheritdoc/>
    public async ValueTask<object?> InvokeMethodAsync(
        HubInvocationContext invocationContext, Func<HubInvocationContext, ValueTask<object?>> next)
    {
        HubCallerContext context = invocationContext.Context;
        Allowance allowance;
        lock (context.Items)
        {
            if (context.Items.TryGetValue(Place, out object? known))
            {
                allowance = (Allowance)known!;
            }
            else
            {
                context.Items[Place] = allowance = new Allowance(time);
            }
        }

        if (allowance.Take() is { Ticks: > 0 } wait)
        {
            await Task.Delay(wait, time, context.ConnectionAborted).ConfigureAwait(false);
        }

        return await next(invocationContext).ConfigureAwait(false);
    }

    /// <summary>What one connection may still tell without waiting; it grows back with time.</summary>
    internal sealed class Allowance(TimeProvider time)
    {
        private readonly Lock _gate = new();
        private double _left = AtOnce;
        private long _at = time.GetTimestamp();

        /// <summary>Takes one message.</summary>
        /// <returns>How long it is to wait.</returns>
        public TimeSpan Take()
        {
            lock (_gate)
            {
                long now = time.GetTimestamp();
                _left = Math.Min(AtOnce, _left + (time.GetElapsedTime(_at, now).TotalSeconds * PerSecond)) - 1;
                _at = now;
                return _left >= 0 ? TimeSpan.Zero : TimeSpan.FromSeconds(-_left / PerSecond);
            }
        }
    }
}
