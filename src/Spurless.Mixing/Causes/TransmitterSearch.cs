using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Causes;

/// <summary>Finds every product that the output stage of one transmitter can put on a receiver's channel, each exactly once.</summary>
/// <remarks>
/// Found is what <see cref="IProductSearch"/> finds without a floor, as far as it contains the transmitter and another emitter, with the
/// level of <see cref="TransmitterSearchInput"/>, where that reaches the receiver's floor or is unknown. Records are the same, so are
/// sinks; their stage is 0. The other emitters are walked by rising cost D_i (unknown ones first, for a product with one of them is never
/// left out), and a branch ends where its cost alone is over what the best receiver leaves: with the usual 40 dB per signal few remain.
/// </remarks>
public static class TransmitterSearch
{
    /// <summary>Searches.</summary>
    /// <param name="input">The transmitter and the problem.</param>
    /// <param name="sink">Gets the products.</param>
    /// <param name="progress">Told now and then, or null.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>Whether it was completed, and how many products there were.</returns>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    /// <exception cref="ArgumentException">The input is malformed (a bug of the caller).</exception>
    public static SearchOutcome Run(
        TransmitterSearchInput input,
        IProductSink sink,
        IProgress<SearchProgress>? progress = null,
        CancellationToken cancellationToken = default)
    {
        input.Validate();
        return new Walk(input, sink, progress, cancellationToken).Run();
    }

    /// <summary>One run's state: the other emitters as far as they are chosen; the transmitter stands at place 0.</summary>
    private sealed class Walk
    {
        private readonly TransmitterSearchInput _input;
        private readonly SearchProblem _problem;
        private readonly IProductSink _sink;
        private readonly IRisingSink? _rising;
        private readonly IProgress<SearchProgress>? _progress;
        private readonly CancellationToken _cancel;
        private readonly ExclusiveGroups _exclusive;
        private readonly int[] _order;
        private readonly long _budget;
        private readonly long _ownHz;
        private readonly long _ownWidthHz;
        private readonly int[] _emitters = new int[Multinomial.MaxOrder];
        private readonly int[] _coefficients = new int[Multinomial.MaxOrder];
        private long _found;
        private bool _stopped;

        public Walk(TransmitterSearchInput input, IProductSink sink, IProgress<SearchProgress>? progress, CancellationToken cancel)
        {
            (_input, _problem, _sink, _progress, _cancel) = (input, input.Problem, sink, progress, cancel);
            _rising = sink as IRisingSink;
            _exclusive = new ExclusiveGroups(_problem);
            _emitters[0] = input.Transmitter;
            _ownHz = _problem.Emitters[input.Transmitter].FrequencyHz;
            _ownWidthHz = _problem.Emitters[input.Transmitter].BandwidthHz;
            // MicroDb.Unknown is the least integer, so that unknown emitters stand first.
            _order =
            [
                .. Enumerable.Range(0, _problem.Emitters.Length)
                    .Where(i => i != input.Transmitter)
                    .OrderBy(i => input.UnderPowerMicroDb[i]),
            ];
            _budget = Budget(input);
        }

        public SearchOutcome Run()
        {
            if (_problem.MaxSignals > 1)
            {
                for (int first = 0; first < _order.Length && !_stopped; first++)
                {
                    if (!Extend(1, first, first + 1, 0, 0, 0, 0, false))
                    {
                        break;
                    }

                    _progress?.Report(new SearchProgress((first + 1.0) / _order.Length, _found));
                }
            }

            return new SearchOutcome(!_stopped, _found);
        }

        /// <summary>The greatest sum of costs that can still reach a floor.</summary>
        private static long Budget(TransmitterSearchInput input)
        {
            SearchProblem problem = input.Problem;
            long leastLoss = long.MaxValue;
            for (int n = problem.MinOrder; n <= problem.MaxOrder; n++)
            {
                leastLoss = Math.Min(leastLoss, input.TurnRoundMicroDb[n]);
                if (input.TurnRoundMicroDb[n] == MicroDb.Unknown)
                {
                    return long.MaxValue;
                }
            }

            long budget = long.MinValue;
            for (int r = 0; r < problem.Receivers.Length; r++)
            {
                if (problem.Receivers[r].FloorMicroDbm is not { } floor || input.ReachMicroDbm[r] == MicroDb.Unknown)
                {
                    return long.MaxValue;
                }

                budget = Math.Max(budget, input.ReachMicroDbm[r] - leastLoss - floor);
            }

            return budget;
        }

        /// <summary>
        /// Appends each of the emitters from..to-1 of the walk with each coefficient that fits; false where no later one can fit either.
        /// </summary>
        private bool Extend(int depth, int from, int to, int order, long frequency, long width, long cost, bool unknown)
        {
            _cancel.ThrowIfCancellationRequested();
            bool last = depth + 1 == _problem.MaxSignals;
            // At least one order is the transmitter's own.
            int room = _problem.MaxOrder - 1 - order;
            for (int at = from; at < to && !_stopped; at++)
            {
                int emitter = _order[at];
                int under = _input.UnderPowerMicroDb[emitter];
                bool nowUnknown = unknown || under == MicroDb.Unknown;
                if (!nowUnknown && under >= 0 && cost + under > _budget)
                {
                    return false;
                }

                if (_exclusive.Any && _exclusive.Excludes(emitter, _emitters.AsSpan(0, depth)))
                {
                    continue;
                }

                _emitters[depth] = emitter;
                SearchEmitter signal = _problem.Emitters[emitter];
                for (int times = 1; times <= room; times++)
                {
                    long nowCost = nowUnknown ? 0 : cost + ((long)times * under);
                    if (!nowUnknown && under >= 0 && nowCost > _budget)
                    {
                        break;
                    }

                    for (int sign = 1; sign >= -1; sign -= 2)
                    {
                        _coefficients[depth] = sign * times;
                        long nowFrequency = frequency + (sign * times * signal.FrequencyHz);
                        long nowWidth = width + (times * signal.BandwidthHz);
                        Visit(depth + 1, order + times, nowFrequency, nowWidth, nowCost, nowUnknown);
                        if (!last && times < room)
                        {
                            Extend(depth + 1, at + 1, _order.Length, order + times, nowFrequency, nowWidth, nowCost, nowUnknown);
                        }
                    }
                }
            }

            return true;
        }

        /// <summary>Tries the own carrier each number of times; taken positive, which picks one of each mirror pair.</summary>
        private void Visit(int signals, int order, long frequency, long width, long cost, bool unknown)
        {
            for (int own = Math.Max(1, _problem.MinOrder - order); own <= _problem.MaxOrder - order; own++)
            {
                long total = frequency + (own * _ownHz);
                long reach = width + (own * _ownWidthHz);
                for (int r = 0; r < _problem.Receivers.Length; r++)
                {
                    SearchReceiver receiver = _problem.Receivers[r];
                    if (2 * Math.Abs(Math.Abs(total) - receiver.FrequencyHz) <= receiver.ChannelHz + reach && total != 0 && !_stopped)
                    {
                        _coefficients[0] = own;
                        Hit(r, receiver, signals, total, unknown ? ProductRecord.UnknownLevel : _input.LevelMicroDbm(r, order + own, cost));
                    }
                }
            }
        }

        private void Hit(int r, SearchReceiver receiver, int signals, long frequency, long level)
        {
            if (level != ProductRecord.UnknownLevel
                && ((receiver.FloorMicroDbm is { } floor && level < floor)
                    || (_rising is not null && level < _rising.WantedFromMicroDbm(r))))
            {
                return;
            }

            _found++;
            _stopped = !_sink.Add(new ProductRecord(
                r, _emitters.AsSpan(0, signals), _coefficients.AsSpan(0, signals), frequency < 0, level, 0));
        }
    }
}
