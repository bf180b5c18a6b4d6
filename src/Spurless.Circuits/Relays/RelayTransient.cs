using Spurless.Numerics;

namespace Spurless.Circuits.Relays;

/// <summary>
/// The relay in time: smoothing voltage by a stiff integrator with error control on the tabulated detector, coil current in closed form
/// over each step, contacts by how long the current has stood.
/// </summary>
/// <remarks>
/// Over a step the coil sees <c>supply - saturation</c> and cannot rise faster, or <c>-clamp</c> and cannot fall faster; between the two it
/// follows what the last stage can carry.
/// </remarks>
public sealed class RelayTransient
{
    private const double Tolerance = 1e-5;
    private const int MostStepsARun = 60_000;

    private readonly RelayCircuit _circuit;
    private readonly double _peakV;
    private readonly Keying _keying;
    private readonly double _longestS;
    private readonly List<ContactChange> _changes = [];
    private readonly List<RelayMoment>? _moments;
    private readonly SmoothingSlope _slope;
    private readonly StiffScalar<SmoothingSlope> _smoothing;

    private double _coilA;
    private bool _over;
    private double _highS = double.NaN;
    private double _lowS;
    private bool _wasOver;
    private double _longestUnderS;
    private double _intoFilterS;

    private RelayTransient(RelayCircuit circuit, DetectorTable table, double peakV, Keying keying, bool moments)
    {
        (_circuit, _peakV, _keying) = (circuit, peakV, keying);
        double whole = keying.BreaksS[^1];
        double fine = Math.Min(circuit.Coil.InductanceH / circuit.CoilOhm / 10, Math.Min(Positive(circuit.Coil.TravelS),
            Positive(circuit.Coil.ReleaseTravelS)) / 4);
        _longestS = Math.Min(keying.FollowS, Math.Max(fine, whole / MostStepsARun));
        _moments = moments ? [] : null;
        _slope = new SmoothingSlope(circuit, table, peakV, keying);
        _smoothing = new StiffScalar<SmoothingSlope>(_slope, 0, 0);
    }

    /// <summary>Sends something through a relay that is at rest.</summary>
    /// <param name="circuit">The circuit.</param>
    /// <param name="table">Its detector, tabulated up to the amplitude.</param>
    /// <param name="peakV">Greatest amplitude on the line in volts.</param>
    /// <param name="keying">What is sent.</param>
    /// <param name="moments">Whether to keep moments for a picture.</param>
    /// <param name="cancellation">Stops it.</param>
    public static RelayRun Run(
        RelayCircuit circuit, DetectorTable table, double peakV, Keying keying, bool moments = false,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(circuit);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(keying);
        return new RelayTransient(circuit, table, peakV, keying, moments).Run(cancellation);
    }

    private static double Positive(double seconds) => seconds > 0 ? seconds : double.PositiveInfinity;

    private RelayRun Run(CancellationToken cancellation)
    {
        for (int part = 0; part < _keying.BreaksS.Length; part++)
        {
            cancellation.ThrowIfCancellationRequested();
            double end = _keying.BreaksS[part];
            _slope.Part = part;
            _smoothing.Break();
            Keep(part);
            while (_smoothing.T < end)
            {
                double tolerance = Tolerance * (Math.Abs(_smoothing.Y) + 0.05);
                if (!_smoothing.TryStep(end, tolerance, _longestS))
                {
                    throw new ArithmeticException("The smoothing voltage cannot be followed.");
                }

                Coil(_smoothing.BeforeT, _smoothing.T, _circuit.CarryA(_smoothing.Y));
                double from = _keying.At(part, _smoothing.BeforeT).Amplitude, to = _keying.At(part, _smoothing.T).Amplitude;
                if (!_over)
                {
                    _intoFilterS += (_smoothing.T - _smoothing.BeforeT) * ((from * from) + (from * to) + (to * to)) / 3;
                }

                Keep(part);
            }
        }

        return new RelayRun
        {
            Changes = _changes,
            LongestUnderS = _longestUnderS,
            IntoFilterS = _intoFilterS,
            Moments = _moments ?? [],
        };
    }

    private void Keep(int part) => _moments?.Add(new RelayMoment(
        _smoothing.T, _peakV * _keying.At(part, _smoothing.T).Amplitude, _smoothing.Y, _circuit.LastBaseA(_smoothing.Y), _coilA));

    private void Coil(double fromS, double toS, double carryA)
    {
        double before = _coilA, ohm = _circuit.CoilOhm, inductance = _circuit.Coil.InductanceH;
        double rest = Math.Exp(-(toS - fromS) * ohm / inductance);
        double full = _circuit.FullCoilA, clamped = -_circuit.Coil.ClampV / ohm;
        double most = full + ((before - full) * rest), least = Math.Max(0, clamped + ((before - clamped) * rest));
        _coilA = Math.Clamp(carryA, Math.Min(least, most), most);
        double? course = _coilA == most ? full : _coilA == least && least > 0 ? clamped : null;
        Contacts(fromS, toS, before, course);
    }

    // Where the current passed a limit: on the exponential that it followed, else on a straight line.
    private double Crossing(double limit, double fromS, double toS, double before, double? course)
    {
        double part = course is { } target && (target - limit) * (target - before) > 0
            ? _circuit.Coil.InductanceH / _circuit.CoilOhm * Math.Log((target - before) / (target - limit)) / (toS - fromS)
            : (limit - before) / (_coilA - before);
        return fromS + (Math.Clamp(part, 0, 1) * (toS - fromS));
    }

    private void Contacts(double fromS, double toS, double before, double? course)
    {
        RelayCoil coil = _circuit.Coil;
        bool wasHigh = before >= coil.OperatesA, isHigh = _coilA >= coil.OperatesA;
        if (isHigh && !wasHigh)
        {
            _highS = Crossing(coil.OperatesA, fromS, toS, before, course);
        }

        double highUntil = isHigh ? toS : wasHigh ? Crossing(coil.OperatesA, fromS, toS, before, course) : double.NaN;
        if (!_over && highUntil - _highS >= coil.TravelS)
        {
            Change(_highS + coil.TravelS, over: true);
        }

        bool wasLow = before < coil.ReleasesA, isLow = _coilA < coil.ReleasesA;
        if (isLow && !wasLow)
        {
            _lowS = Crossing(coil.ReleasesA, fromS, toS, before, course);
        }

        double lowUntil = isLow ? toS : wasLow ? Crossing(coil.ReleasesA, fromS, toS, before, course) : double.NaN;
        if (_over && lowUntil - _lowS >= coil.ReleaseTravelS)
        {
            Change(_lowS + coil.ReleaseTravelS, over: false);
        }

        if (wasLow && !isLow && _wasOver)
        {
            _longestUnderS = Math.Max(_longestUnderS, lowUntil - _lowS);
        }

        _wasOver |= _over;
    }

    // What stood between the change and the end of the step was on the other side of it.
    private void Change(double atS, bool over)
    {
        _over = over;
        _changes.Add(new ContactChange(atS, over));
        double amplitude = _keying.At(_slope.Part, atS).Amplitude;
        _intoFilterS += amplitude * amplitude * (atS - _smoothing.BeforeT) * (over ? 1 : -1);
    }

    /// <summary>The charge of the smoothing capacitor.</summary>
    private sealed class SmoothingSlope(RelayCircuit circuit, DetectorTable table, double peakV, Keying keying) : IScalarSlope
    {
        public int Part { get; set; }

        public (double F, double ByY, double ByT) At(double t, double y)
        {
            (double amplitude, double slope) = keying.At(Part, t);
            double u = Math.Max(0, y);
            (double current, double bySmoothing, double byPeak) = table.At(peakV * amplitude, u);
            double over = 1 / circuit.SmoothingF;
            return (
                (current - circuit.LoadA(u)) * over,
                (bySmoothing - circuit.LoadSlope(u)) * over,
                byPeak * peakV * slope * over);
        }
    }
}
