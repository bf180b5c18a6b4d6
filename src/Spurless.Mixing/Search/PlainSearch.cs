using Spurless.Mixing.Levels;

namespace Spurless.Mixing.Search;

/// <summary>
/// The plain search: goes through all canonical vectors (first coefficient positive) one by one. Slow for many emitters and simple enough
/// to be believed: the oracle of <see cref="FastSearch"/>. It stands here, and not with the tests, since bench measures the fast search
/// as a ratio to it.
/// </summary>
public sealed class PlainSearch : IProductSearch
{
    /// <inheritdoc/>
    public SearchOutcome Run(
        SearchProblem problem, IProductSink sink, IProgress<SearchProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        problem.Validate();
        return new Walk(problem, sink, progress, cancellationToken).Run();
    }

    /// <summary>One run's state: the vector as far as it is chosen.</summary>
    private sealed class Walk
    {
        private readonly SearchProblem _problem;
        private readonly IProductSink _sink;
        private readonly IRisingSink? _rising;
        private readonly IProgress<SearchProgress>? _progress;
        private readonly CancellationToken _cancel;
        private readonly long[] _frequency;
        private readonly long[] _width;
        private readonly long[] _receiverFrequency;
        private readonly long[] _channel;
        private readonly ExclusiveGroups _exclusive;
        private readonly int[] _emitters = new int[Multinomial.MaxOrder];
        private readonly int[] _coefficients = new int[Multinomial.MaxOrder];
        private long _found;
        private bool _stopped;

        public Walk(SearchProblem problem, IProductSink sink, IProgress<SearchProgress>? progress, CancellationToken cancel)
        {
            (_problem, _sink, _progress, _cancel) = (problem, sink, progress, cancel);
            _rising = sink as IRisingSink;
            _frequency = [.. problem.Emitters.Select(static e => e.FrequencyHz)];
            _width = [.. problem.Emitters.Select(static e => e.BandwidthHz)];
            _receiverFrequency = [.. problem.Receivers.Select(static r => r.FrequencyHz)];
            _channel = [.. problem.Receivers.Select(static r => r.ChannelHz)];
            _exclusive = new ExclusiveGroups(problem);
        }

        public SearchOutcome Run()
        {
            int count = _frequency.Length;
            double all = VectorCount.Canonical(count, 1, _problem.MaxOrder, _problem.MaxSignals);
            for (int first = 0; first < count && !_stopped; first++)
            {
                Extend(0, first, first + 1, 0, 0, 0);
                // What is left are the vectors over the emitters behind this one.
                double left = VectorCount.Canonical(count - first - 1, 1, _problem.MaxOrder, _problem.MaxSignals);
                _progress?.Report(new SearchProgress(1 - (left / all), _found));
            }

            return new SearchOutcome(!_stopped, _found);
        }

        /// <summary>
        /// Appends each of the emitters from..to-1 with each coefficient that fits, tests the vector and goes on behind it.
        /// </summary>
        private void Extend(int depth, int from, int to, int order, long frequency, long width)
        {
            _cancel.ThrowIfCancellationRequested();
            int room = _problem.MaxOrder - order;
            bool last = depth + 1 == _problem.MaxSignals;
            for (int emitter = from; emitter < to && !_stopped; emitter++)
            {
                if (_exclusive.Any && _exclusive.Excludes(emitter, _emitters.AsSpan(0, depth)))
                {
                    continue;
                }

                _emitters[depth] = emitter;
                // Where no further emitter can follow, orders under the lowest need not be formed.
                int lowest = last ? Math.Max(1, _problem.MinOrder - order) : 1;
                for (int times = lowest; times <= room; times++)
                {
                    long step = times * _frequency[emitter];
                    long wider = width + (times * _width[emitter]);
                    bool deeper = !last && times < room && emitter + 1 < _frequency.Length;

                    _coefficients[depth] = times;
                    Visit(depth + 1, order + times, frequency + step, wider, deeper, emitter + 1);
                    if (depth > 0)
                    {
                        _coefficients[depth] = -times;
                        Visit(depth + 1, order + times, frequency - step, wider, deeper, emitter + 1);
                    }
                }
            }
        }

        private void Visit(int signals, int order, long frequency, long width, bool deeper, int next)
        {
            if (order >= _problem.MinOrder)
            {
                // The mirror image has the opposite frequency: the positive one of the two is the product.
                long positive = Math.Abs(frequency);
                for (int r = 0; r < _receiverFrequency.Length; r++)
                {
                    if (2 * Math.Abs(positive - _receiverFrequency[r]) <= _channel[r] + width)
                    {
                        Hit(r, signals, order, frequency);
                    }
                }
            }

            if (deeper)
            {
                Extend(signals, next, _frequency.Length, order, frequency, width);
            }
        }

        private void Hit(int receiver, int signals, int order, long frequency)
        {
            if (frequency == 0 || _stopped)
            {
                return;
            }

            SearchReceiver target = _problem.Receivers[receiver];
            (long level, int stage) = StageLevels.Strongest(
                _problem, target.Stages, _emitters.AsSpan(0, signals), _coefficients.AsSpan(0, signals), order);
            if (level != ProductRecord.UnknownLevel
                && (level < target.ThresholdMicroDbm || (_rising is not null && level < _rising.WantedFromMicroDbm(receiver))))
            {
                return;
            }

            ProductRecord record = new(
                receiver, _emitters.AsSpan(0, signals), _coefficients.AsSpan(0, signals), frequency < 0, level, stage);
            _found++;
            _stopped = !_sink.Add(record);
        }
    }
}
