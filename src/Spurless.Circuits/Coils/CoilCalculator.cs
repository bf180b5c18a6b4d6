using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Numerics;

namespace Spurless.Circuits.Coils;

/// <summary>Inductance, Q and self-resonance of a single-layer air coil from its geometry, and back.</summary>
/// <remarks>
/// <para>Inductance: <see cref="CoilInductance"/> (Nagaoka's current sheet by Lundin's closed form, Rosa's round-wire corrections) at low
/// frequency. At the
/// frequency asked for the field has left the wire's inside, which takes off up to 50 nH per metre of wire (exact internal inductance of
/// round
/// wire), and the current moves towards the coil's inner side, which takes off what is stated as the formulas' sigma.</para>
/// <para>Resistance: the exact skin effect of the straight wire times the proximity factor of Medhurst's table, which was measured on coils
/// of 30 to 50
/// turns; for N turns <c>1 + (table - 1)(1 - 1/N)</c>, so that a lone turn has none (common practice, from memory).</para>
/// <para>Self-capacitance: Medhurst's table, one end earthed; self-resonance from it and the inductance with leads.</para>
/// <para>Q is the reactance of the inductance at the frequency over that resistance; as seen at the coil's ends it is less by
/// <c>1 - w^2 L C</c>.</para>
/// </remarks>
public static class CoilCalculator
{
    // mu0 / (8 pi): internal inductance of a round wire whose current fills it.
    private const double InternalAtRest = PhysicalConstants.VacuumPermeability / (8 * Math.PI);
    private const double SheetSigma = 0.01;

    /// <summary>Everything about a coil.</summary>
    /// <param name="coil">The coil; every dimension above 0 and finite, the wire thinner than the coil's diameter.</param>
    /// <param name="frequencyHz">Frequency in hertz for Q, above 0; null for none.</param>
    /// <param name="metal">The wire's metal; null for copper.</param>
    /// <exception cref="ArgumentException">The coil is none; see <see cref="Refuse"/>.</exception>
    public static CoilResult Compute(CoilGeometry coil, double? frequencyHz = null, Conductor? metal = null)
    {
        ArgumentNullException.ThrowIfNull(coil);
        if (Refuse(coil) is { } refusal)
        {
            throw new ArgumentException(refusal.ToString(), nameof(coil));
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
        double? atFrequency = frequencyHz is { } asked ? inductance + leads - (winding * GoneFromWire(coil.WireM, asked, metal)) : null;
        double? q = resistance is { } r ? 2 * Math.PI * frequencyHz!.Value * atFrequency / r : null;
        double? loading = 1 - (Math.Pow(2 * Math.PI * (frequencyHz ?? 0), 2) * atFrequency * capacitance);
        return new CoilResult
        {
            Geometry = coil,
            InductanceAtFrequencyH = atFrequency,
            ApparentInductanceH = loading > 0 ? atFrequency / loading : null,
            FormulaSigma = atFrequency is { } most ? FormulaSigmaOf(coil, inductance, most, frequencyHz!.Value, metal ?? Conductor.Copper)
                : null,
            InductanceH = inductance,
            SheetInductanceH = CoilInductance.SheetHenries(coil.Turns, coil.DiameterM, coil.LengthM),
            WheelerInductanceH = shape > 0.4 ? WheelerHenries(coil.Turns, coil.DiameterM, coil.LengthM) : null,
            LeadInductanceH = leads,
            FrequencyHz = frequencyHz,
            ResistanceOhm = resistance,
            Q = q,
            ApparentQ = loading > 0 ? q * loading : null,
            ProximityFactor = proximity,
            SelfCapacitanceF = capacitance,
            SelfResonanceHz = resonance,
            WireLengthM = winding + (2 * coil.LeadM),
            Warnings = Warnings(coil, shape, resonance, frequencyHz, metal ?? Conductor.Copper),
        };
    }

    /// <summary>Inductance of a winding without leads of a wire of which every metre has lost so many henries.</summary>
    private static double WindingHenries(double turns, double diameterM, double lengthM, double wireM, double gone) =>
        CoilInductance.Henries(turns, diameterM, lengthM, wireM) - (double.Hypot(Math.PI * diameterM * turns, lengthM) * gone);

    /// <summary>What a metre of wire has lost of its inside's 50 nH at a frequency, in henries; nothing where none is given.</summary>
    private static double GoneFromWire(double wireM, double? frequencyHz, Conductor? metal) => frequencyHz is { } f
        ? Math.Max(0, InternalAtRest - RoundWire.InternalHenryPerMetre(metal ?? Conductor.Copper, wireM, f))
        : 0;

    // The current's path lies between the wires' centres and their inner sides once the skin is thin; evenly spread, that is the span over
    // root 12.
    private static double FormulaSigmaOf(CoilGeometry coil, double inductance, double at, double frequencyHz, Conductor metal)
    {
        double skin = metal.SkinDepthM(frequencyHz), crowded = Math.Clamp(1 - (4 * skin / coil.WireM), 0, 1);
        double inner = CoilInductance.SheetHenries(coil.Turns, Math.Max(coil.DiameterM - coil.WireM, coil.DiameterM / 4), coil.LengthM)
            / CoilInductance.SheetHenries(coil.Turns, coil.DiameterM, coil.LengthM);
        return double.Hypot(SheetSigma, crowded * (1 - inner) * inductance / at / Math.Sqrt(12));
    }

    /// <summary>Why a coil cannot be; null for one that can.</summary>
    public static Refusal? Refuse(CoilGeometry coil)
    {
        ArgumentNullException.ThrowIfNull(coil);
        foreach ((double value, string name, string example) in new[]
        {
            (coil.Turns, "number of turns", "2"),
            (coil.DiameterM, "diameter", "7 mm"),
            (coil.LengthM, "length", "4 mm"),
            (coil.WireM, "wire's diameter", "1 mm"),
        })
        {
            if (!(value > 0) || !double.IsFinite(value))
            {
                return new Refusal(
                    FormattableString.Invariant($"the {name} is not above 0"), FormattableString.Invariant($"write one such as {example}"));
            }
        }

        if (!(coil.LeadM >= 0) || !double.IsFinite(coil.LeadM))
        {
            return new Refusal("the leads' length is negative", "write a length such as 3 mm");
        }

        if (coil.WireM >= coil.DiameterM)
        {
            return new Refusal(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"the wire ({Millimetres(coil.WireM)}) is as thick as the coil (diameter "
                        + $"{Millimetres(coil.DiameterM)} from wire centre to wire centre)"),
                "write the diameter to the wire's centre");
        }

        return CoilInductance.Henries(coil.Turns, coil.DiameterM, coil.LengthM, coil.WireM) > 0
            ? null
            : new Refusal(
                "the round-wire correction is larger than the coil's inductance, its turns are much too close for their wire",
                "write a longer coil or fewer turns");
    }

    /// <summary>The number of turns that gives an inductance, the coil's diameter and length staying as they are.</summary>
    /// <param name="inductanceH">Wanted inductance in henries without leads, above 0.</param>
    /// <param name="diameterM">Diameter in metres, wire centre to wire centre.</param>
    /// <param name="lengthM">Length in metres.</param>
    /// <param name="wireM">Wire diameter in metres.</param>
    /// <param name="turns">The number, a real one; found by halving to 1e-12.</param>
    /// <param name="refusal">Why there is none.</param>
    /// <param name="frequencyHz">Frequency in hertz at which the coil is to have it, above 0; null for low frequency.</param>
    /// <param name="metal">The wire's metal; null for copper.</param>
    public static bool TryTurns(
        double inductanceH, double diameterM, double lengthM, double wireM, out double turns, [NotNullWhen(false)] out Refusal? refusal,
        double? frequencyHz = null, Conductor? metal = null)
    {
        turns = 0;
        // A coil of so few turns that nothing but its dimensions can be wrong.
        refusal = Refuse(new CoilGeometry(Math.Min(1, 0.5 * lengthM / wireM), diameterM, lengthM, wireM))
            ?? (inductanceH > 0 && double.IsFinite(inductanceH)
                ? null
                : new Refusal("the inductance is not above 0", "write one such as 24 nH"));
        if (refusal is not null)
        {
            return false;
        }

        double gone = GoneFromWire(wireM, frequencyHz, metal);
        double Inductance(double number) => WindingHenries(number, diameterM, lengthM, wireM, gone);

        // The inductance rises with the turns as long as they have room, and some way beyond.
        double low = 1e-3;
        double high = low;
        double most = 1.5 * lengthM / wireM;
        while (high < most && Inductance(high) < inductanceH)
        {
            low = high;
            high = Math.Min(high * 1.25, most);
        }

        if (Inductance(high) < inductanceH)
        {
            refusal = new Refusal(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{inductanceH * 1e9:G4} nH needs more turns than fit: {lengthM / wireM:0.#} turns of "
                        + $"{Millimetres(wireM)} wire lie side by side on {Millimetres(lengthM)}"),
                "write a longer or wider coil, or thinner wire");
            return false;
        }

        for (int i = 0; i < 200 && high - low > 1e-13 * high; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Inductance(middle) < inductanceH ? (middle, high) : (low, middle);
        }

        turns = (low + high) / 2;
        return true;
    }

    /// <summary>The length to which a coil of given turns must be pressed or pulled for an inductance.</summary>
    /// <param name="inductanceH">Wanted inductance in henries without leads, above 0.</param>
    /// <param name="turns">Turns, at least 1.</param>
    /// <param name="diameterM">Diameter in metres, wire centre to wire centre.</param>
    /// <param name="wireM">Wire diameter in metres.</param>
    /// <param name="frequencyHz">Frequency in hertz at which the coil is to have it, above 0; null for low frequency.</param>
    /// <param name="metal">The wire's metal; null for copper.</param>
    /// <returns>Length in metres, from turns that touch on, as long as a longer coil has less inductance (with turns very far apart the
    /// round-wire correction turns that round); null where none gives it. Found by halving to 1e-12.</returns>
    public static double? LengthFor(
        double inductanceH, double turns, double diameterM, double wireM, double? frequencyHz = null, Conductor? metal = null)
    {
        const double Stride = 1.05, Longest = 100;
        double gone = GoneFromWire(wireM, frequencyHz, metal);
        double Inductance(double length) => WindingHenries(turns, diameterM, length, wireM, gone);
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

    /// <summary>
    /// Wheeler's formula of 1928: <c>r^2 N^2 / (9 r + 10 l)</c> microhenries, inches; states 1 % for a length over 0.8 radii.
    /// </summary>
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

    private static List<CoilWarning> Warnings(CoilGeometry coil, double shape, double resonance, double? frequencyHz, Conductor metal)
    {
        List<CoilWarning> found = [];
        double pitch = coil.LengthM / coil.Turns;
        if (pitch < coil.WireM * (1 - 1e-9))
        {
            found.Add(new CoilWarning.TurnsDoNotFit(coil.Turns, coil.WireM, coil.LengthM));
        }

        if (coil.Turns < 1)
        {
            found.Add(new CoilWarning.UnderOneTurn());
        }
        else if (coil.Turns < 3)
        {
            found.Add(new CoilWarning.UnderThreeTurns(coil.LeadM > 0));
        }

        if (coil.WireM > 0.5 * coil.DiameterM)
        {
            found.Add(new CoilWarning.ThickWire());
        }

        if (shape is < 0.1 or > 50)
        {
            found.Add(new CoilWarning.SelfCapacitanceOutOfRange(shape));
        }

        if (frequencyHz is { } f)
        {
            if (f > resonance)
            {
                found.Add(new CoilWarning.AboveResonance(f, resonance));
            }
            else if (f > 0.3 * resonance)
            {
                found.Add(new CoilWarning.NearResonance(f, resonance));
            }

            if (coil.WireM < 8 * metal.SkinDepthM(f))
            {
                found.Add(new CoilWarning.ThinWire());
            }

            if (coil.Turns is > 1 and < 10)
            {
                found.Add(new CoilWarning.FewTurns());
            }
        }

        return found;
    }

    private static string Millimetres(double metres) => string.Create(CultureInfo.InvariantCulture, $"{metres * 1e3:0.###} mm");
}
