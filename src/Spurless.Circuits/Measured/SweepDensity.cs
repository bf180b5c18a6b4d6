using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Measured;

/// <summary>
/// Whether the points of a sweep lie close enough for what it shows: how far the phase turns from one to the next, and how wide its notches
/// are.
/// </summary>
/// <remarks>
/// Between two points the curve is taken as straight in the complex plane once the delay of the ports' lines is taken out. A step that
/// turns by d then bends
/// away by up to <c>1 - cos(d/2)</c> of itself: at 45 degrees 8 %, 0.7 dB. Looked at is what passes within 20 dB of the best. A notch is
/// told from the
/// instrument's noise by standing beside a point within 60 dB of the best.
/// </remarks>
public sealed record SweepDensity
{
    private const double MostTurn = 45;
    private const double HalfTurn = 150;
    private const double Passes = 20;
    private const double OverNoise = 60;
    private const double BothSides = 6;
    private const double OneSide = 10;
    private const double Reversed = 120;

    private SweepDensity(ImmutableArray<NetworkRemark> remarks) => Remarks = remarks;

    /// <summary>What is too sparse; empty where the points suffice.</summary>
    public ImmutableArray<NetworkRemark> Remarks { get; }

    /// <summary>Whether the points lie close enough.</summary>
    public bool Suffices => Remarks.IsEmpty;

    internal static SweepDensity Of(int ports, ReadOnlySpan<double> f, ReadOnlySpan<ScatteringMatrix> points, PortDelays delays)
    {
        if (f.Length < 2)
        {
            return new SweepDensity([]);
        }

        Complex[] measured = new Complex[f.Length], still = new Complex[f.Length];
        double[] db = new double[f.Length];
        for (int i = 0; i < f.Length; i++)
        {
            ScatteringMatrix shifted = delays.Shift(points[i], f[i], 1);
            (measured[i], still[i]) = ports == 1 ? (points[i].S11, shifted.S11) : (points[i].S21, shifted.S21);
            db[i] = Math.Max(-400, 20 * Math.Log10(measured[i].Magnitude));
        }

        double best = db.Max();
        List<NetworkRemark> remarks = [];
        Turns(f, measured, still, db, best, ports == 2, remarks);
        if (ports == 2)
        {
            Notches(f, still, db, best, remarks);
        }

        return new SweepDensity([.. remarks]);
    }

    private static void Turns(ReadOnlySpan<double> f, Complex[] measured, Complex[] still, double[] db, double best, bool ofTransmission,
        List<NetworkRemark> remarks)
    {
        double most = 0, raw = 0;
        int at = 0;
        for (int i = 0; i + 1 < f.Length; i++)
        {
            if (Math.Min(db[i], db[i + 1]) < best - Passes)
            {
                continue;
            }

            raw = Math.Max(raw, Turn(measured[i], measured[i + 1]));
            double turn = Turn(still[i], still[i + 1]);
            if (turn > most)
            {
                (most, at) = (turn, i);
            }
        }

        if (most > MostTurn)
        {
            double step = (f[at + 1] - f[at]) * (MostTurn / 3) / most;
            double uncertain = 20 * Math.Log10(1 / Math.Max(0.05, Math.Cos(most * Math.PI / 360)));
            remarks.Add(new NetworkRemark.PhaseTurns(ofTransmission, most, f[at], f[at + 1], uncertain, step));
        }
        else if (raw > HalfTurn)
        {
            remarks.Add(new NetworkRemark.DelayAmbiguous(ofTransmission, raw));
        }
    }

    private static void Notches(ReadOnlySpan<double> f, Complex[] still, double[] db, double best, List<NetworkRemark> remarks)
    {
        List<NarrowNotch> narrow = [];
        double finest = double.PositiveInfinity;
        for (int i = 0; i < f.Length; i++)
        {
            bool between = i + 1 < f.Length && Turn(still[i], still[i + 1]) > Reversed && Math.Max(db[i], db[i + 1]) < best - Passes
                && Math.Min(db[i], db[i + 1]) > best - OverNoise;
            bool on = i > 0 && i + 1 < f.Length && Math.Max(db[i - 1], db[i + 1]) > best - OverNoise
                && Math.Min(db[i - 1], db[i + 1]) - db[i] > BothSides && Math.Max(db[i - 1], db[i + 1]) - db[i] > OneSide
                    && db[i] < best - Passes;
            if (on || between)
            {
                narrow.Add(on ? new(f[i], null, -db[i], -db[i - 1], -db[i + 1]) : new(f[i], f[i + 1], -db[i], null, -db[i + 1]));
                finest = Math.Min(finest, (on ? f[i + 1] - f[i - 1] : 2 * (f[i + 1] - f[i])) / 20);
            }
        }

        if (narrow.Count > 0)
        {
            remarks.Add(new NetworkRemark.NarrowNotches([.. narrow], finest));
        }
    }

    private static double Turn(Complex a, Complex b) => Math.Abs((b * Complex.Conjugate(a)).Phase) * 180 / Math.PI;
}
