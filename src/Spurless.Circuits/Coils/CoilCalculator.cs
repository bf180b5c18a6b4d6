using System.Globalization;
using Spurless.Circuits.Parts;

namespace Spurless.Circuits.Coils;

/// <summary>Inductance, Q and self-resonance of a single-layer air coil from its geometry, and back.</summary>
/// <remarks>
/// <para>Inductance: <see cref="CoilInductance"/> (Nagaoka's current sheet by Lundin's closed form, Rosa's round-wire corrections). It is the value at low
/// frequency: at VHF the field leaves the wire's inside, which takes off at most 50 nH per metre of wire, and the current moves towards the
/// coil's inner side; expect a few per cent less.</para>
/// <para>Resistance: the exact skin effect of the straight wire times the proximity factor of Medhurst's table, which was measured on coils of 30 to 50
/// turns; for N turns <c>1 + (table - 1)(1 - 1/N)</c>, so that a lone turn has none (common practice, from memory).</para>
/// <para>Self-capacitance: Medhurst's table, one end earthed; self-resonance from it and the inductance with leads.</para>
/// </remarks>
public static class CoilCalculator
{
    /// <summary>Everything about a coil.</summary>
    /// <param name="coil">The coil; every dimension above 0 and finite, the wire thinner than the coil's diameter.</param>
    /// <param name="frequencyHz">Frequency in hertz for Q, above 0; null for none.</param>
    /// <param name="metal">The wire's metal; null for copper.</param>
    /// <exception cref="ArgumentException">The coil is none; see <see cref="Problem"/>.</exception>
    public static CoilResult Compute(CoilGeometry coil, double? frequencyHz = null, Conductor? metal = null)
    {
        ArgumentNullException.ThrowIfNull(coil);
        if (Problem(coil) is { } problem)
        {
            throw new ArgumentException(problem, nameof(coil));
        }

        if (frequencyHz is { } f && (!(f > 0) || !double.IsFinite(f)))
        {
            throw new ArgumentOutOfRangeException(nameof(frequencyHz), "must be above 0 and finite");
        }

        double inductance = CoilInductance.Henries(coil.Turns, coil.DiameterM, coil.LengthM, coil.WireM);
        double leads = CoilInductance.LeadHenries(coil.LeadM, coil.WireM);
        double shape = coil.LengthM / coil.DiameterM;
        double table = Medhurst.Proximity(coil.WireM * coil.Turns / coil.LengthM, shape);
        double proximity = coil.Turns <= 1 ? 1 : 1 + ((table - 1) * (1 - (1 / coil.Turns)));
        double winding = double.Hypot(Math.PI * coil.DiameterM * coil.Turns, coil.LengthM);
        double capacitance = Medhurst.PicofaradPerCentimetre(shape) * (coil.DiameterM * 100) * 1e-12;
        double? resistance = frequencyHz is { } at
            ? RoundWire.OhmPerMetre(metal ?? Conductor.Copper, coil.WireM, at) * ((winding * proximity) + (2 * coil.LeadM))
            : null;
        double resonance = 1 / (2 * Math.PI * Math.Sqrt((inductance + leads) * capacitance));
        return new CoilResult
        {
            Geometry = coil,
            InductanceH = inductance,
            SheetInductanceH = CoilInductance.SheetHenries(coil.Turns, coil.DiameterM, coil.LengthM),
            WheelerInductanceH = shape > 0.4 ? WheelerHenries(coil.Turns, coil.DiameterM, coil.LengthM) : null,
            LeadInductanceH = leads,
            FrequencyHz = frequencyHz,
            ResistanceOhm = resistance,
            Q = resistance is { } r ? 2 * Math.PI * frequencyHz!.Value * (inductance + leads) / r : null,
            ProximityFactor = proximity,
            SelfCapacitanceF = capacitance,
            SelfResonanceHz = resonance,
            WireLengthM = winding + (2 * coil.LeadM),
            Warnings = Warnings(coil, shape, resonance, frequencyHz, metal ?? Conductor.Copper),
        };
    }

    /// <summary>Why a coil cannot be: what was found; what to write instead. Null for one that can.</summary>
    public static string? Problem(CoilGeometry coil)
    {
        ArgumentNullException.ThrowIfNull(coil);
        foreach ((double value, string name, string example) in new[]
        {
            (coil.Turns, "number of turns", "2"), (coil.DiameterM, "diameter", "7 mm"), (coil.LengthM, "length", "4 mm"), (coil.WireM, "wire's diameter", "1 mm"),
        })
        {
            if (!(value > 0) || !double.IsFinite(value))
            {
                return string.Create(CultureInfo.InvariantCulture, $"the {name} is not above 0; write one such as {example}");
            }
        }

        if (!(coil.LeadM >= 0) || !double.IsFinite(coil.LeadM))
        {
            return "the leads' length is negative; write a length such as 3 mm";
        }

        if (coil.WireM >= coil.DiameterM)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"the wire ({Millimetres(coil.WireM)}) is as thick as the coil (diameter {Millimetres(coil.DiameterM)} from wire centre to wire centre); write the diameter to the wire's centre");
        }

        return CoilInductance.Henries(coil.Turns, coil.DiameterM, coil.LengthM, coil.WireM) > 0
            ? null
            : "the round-wire correction is larger than the coil's inductance, its turns are much too close for their wire; write a longer coil or fewer turns";
    }

    /// <summary>The number of turns that gives an inductance, the coil's diameter and length staying as they are.</summary>
    /// <param name="inductanceH">Wanted inductance in henries without leads, above 0.</param>
    /// <param name="diameterM">Diameter in metres, wire centre to wire centre.</param>
    /// <param name="lengthM">Length in metres.</param>
    /// <param name="wireM">Wire diameter in metres.</param>
    /// <param name="turns">The number, a real one; found by halving to 1e-12.</param>
    /// <param name="problem">Where there is none: what was found; what to write instead.</param>
    public static bool TryTurns(double inductanceH, double diameterM, double lengthM, double wireM, out double turns, out string problem)
    {
        turns = 0;
        // A coil of so few turns that nothing but its dimensions can be wrong.
        problem = Problem(new CoilGeometry(Math.Min(1, 0.5 * lengthM / wireM), diameterM, lengthM, wireM)) ?? "";
        if (problem.Length == 0 && (!(inductanceH > 0) || !double.IsFinite(inductanceH)))
        {
            problem = "the inductance is not above 0; write one such as 24 nH";
        }

        if (problem.Length > 0)
        {
            return false;
        }

        // The inductance rises with the turns as long as they have room, and some way beyond.
        double low = 1e-3;
        double high = low;
        double most = 1.5 * lengthM / wireM;
        while (high < most && CoilInductance.Henries(high, diameterM, lengthM, wireM) < inductanceH)
        {
            low = high;
            high = Math.Min(high * 1.25, most);
        }

        if (CoilInductance.Henries(high, diameterM, lengthM, wireM) < inductanceH)
        {
            problem = string.Create(
                CultureInfo.InvariantCulture,
                $"{inductanceH * 1e9:G4} nH needs more turns than fit: {lengthM / wireM:0.#} turns of {Millimetres(wireM)} wire lie side by side on {Millimetres(lengthM)}; write a longer or wider coil, or thinner wire");
            return false;
        }

        for (int i = 0; i < 200 && high - low > 1e-13 * high; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = CoilInductance.Henries(middle, diameterM, lengthM, wireM) < inductanceH ? (middle, high) : (low, middle);
        }

        turns = (low + high) / 2;
        return true;
    }

    /// <summary>The length to which a coil of given turns must be pressed or pulled for an inductance.</summary>
    /// <param name="inductanceH">Wanted inductance in henries without leads, above 0.</param>
    /// <param name="turns">Turns, at least 1.</param>
    /// <param name="diameterM">Diameter in metres, wire centre to wire centre.</param>
    /// <param name="wireM">Wire diameter in metres.</param>
    /// <returns>Length in metres, from turns that touch on, as long as a longer coil has less inductance (with turns very far apart the round-wire correction turns that round); null where none gives it. Found by halving to 1e-12.</returns>
    public static double? LengthFor(double inductanceH, double turns, double diameterM, double wireM)
    {
        const double Stride = 1.05, Longest = 100;
        double Inductance(double length) => CoilInductance.Henries(turns, diameterM, length, wireM);
        double low = turns * wireM, high = low, most = Longest * diameterM;
        double here = Inductance(low);
        if (!(here >= inductanceH))
        {
            return null;
        }

        while (here > inductanceH)
        {
            (low, high) = (high, high * Stride);
            double next = Inductance(high);
            if (!(next < here) || high > most)
            {
                return null;
            }

            here = next;
        }

        for (int i = 0; i < 200 && high - low > 1e-13 * high; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Inductance(middle) > inductanceH ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    /// <summary>Wheeler's formula of 1928: <c>r^2 N^2 / (9 r + 10 l)</c> microhenries, inches; states 1 % for a length over 0.8 radii.</summary>
    /// <param name="turns">Turns, above 0.</param>
    /// <param name="diameterM">Diameter in metres.</param>
    /// <param name="lengthM">Length in metres.</param>
    /// <returns>Henries.</returns>
    public static double WheelerHenries(double turns, double diameterM, double lengthM)
    {
        const double Inch = 0.0254;
        double r = diameterM / 2 / Inch;
        return 1e-6 * r * r * turns * turns / ((9 * r) + (10 * lengthM / Inch));
    }

    private static List<string> Warnings(CoilGeometry coil, double shape, double resonance, double? frequencyHz, Conductor metal)
    {
        List<string> found = [];
        double pitch = coil.LengthM / coil.Turns;
        if (pitch < coil.WireM * (1 - 1e-9))
        {
            found.Add($"the turns do not fit: {coil.Turns.ToString("0.##", CultureInfo.InvariantCulture)} turns of {Millimetres(coil.WireM)} wire need {Millimetres(coil.Turns * coil.WireM)}, the coil is {Millimetres(coil.LengthM)} long");
        }

        if (coil.Turns < 1)
        {
            found.Add("under one turn the current sheet is no model of the coil");
        }
        else if (coil.Turns < 3)
        {
            found.Add(coil.LeadM > 0
                ? "under three turns the leads are a good part of the inductance, and where they run matters"
                : "under three turns the leads are a good part of the inductance; state their length");
        }

        if (coil.WireM > 0.5 * coil.DiameterM)
        {
            found.Add("the wire is over half as thick as the coil is wide; the round-wire corrections are made for thinner wire");
        }

        if (shape is < 0.1 or > 50)
        {
            found.Add(string.Create(CultureInfo.InvariantCulture, $"the self-capacitance is known for lengths of 0.1 to 50 diameters, here it is {shape:0.###}; the nearest figure is taken"));
        }

        if (frequencyHz is { } f)
        {
            if (f > resonance)
            {
                found.Add($"at {Megahertz(f)} the coil is above its self-resonance ({Megahertz(resonance)}) and no inductor");
            }
            else if (f > 0.3 * resonance)
            {
                found.Add($"at {Megahertz(f)} the self-resonance ({Megahertz(resonance)}) is near: the coil acts as more than its inductance, and its Q falls");
            }

            if (coil.WireM < 8 * metal.SkinDepthM(f))
            {
                found.Add("the wire is under eight skin depths thick; the proximity factor is made for thicker wire and is too high");
            }

            if (coil.Turns is > 1 and < 10)
            {
                found.Add("the proximity factor was measured on coils of 30 to 50 turns and is scaled down for fewer; Q is an estimate, the real one is lower by dielectric, shield and joints");
            }
        }

        return found;
    }

    private static string Millimetres(double metres) => string.Create(CultureInfo.InvariantCulture, $"{metres * 1e3:0.###} mm");

    private static string Megahertz(double hertz) => string.Create(CultureInfo.InvariantCulture, $"{hertz / 1e6:0.###} MHz");
}
