using Spurless.Circuits.Coils;

namespace Spurless.Sites.Coils;

/// <summary>What the coil calculator answers; one record for each kind.</summary>
public abstract record CoilAnswer
{
    private protected CoilAnswer()
    {
    }
}

/// <summary>An air coil.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Coil">The coil.</param>
/// <param name="Whole">The wanted inductance in whole turns, at low frequency; null where turns were asked about.</param>
/// <param name="AtFrequency">
/// The winding that has the wanted inductance at the frequency asked, where low frequency's has less; null without one of both, and where
/// none has it.
/// </param>
public sealed record AirCoilAnswer(AirCoilQuestion Question, CoilResult Coil, WholeTurns? Whole, WoundAt? AtFrequency) : CoilAnswer;

/// <summary>A winding for an inductance at a frequency, without leads.</summary>
/// <param name="Turns">Turns on the length asked, a real number.</param>
/// <param name="Whole">The nearest whole number with its length.</param>
public sealed record WoundAt(double Turns, WholeTurns Whole);

/// <summary>A coil of whole turns.</summary>
/// <param name="Turns">The whole number of turns, at least 1.</param>
/// <param name="LengthM">The length to which it is pressed or pulled for the wanted inductance, in metres; null where there is
/// none.</param>
public sealed record WholeTurns(double Turns, double? LengthM);

/// <summary>A winding on a ring core.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Turns">Turns.</param>
/// <param name="InductanceH">What they give, in henries.</param>
/// <param name="WholeTurns">The nearest whole number of turns, at least 1.</param>
/// <param name="WholeInductanceH">What these give, in henries.</param>
public sealed record RingCoreAnswer(
    RingCoreQuestion Question, double Turns, double InductanceH, double WholeTurns, double WholeInductanceH) : CoilAnswer;

/// <summary>A helical resonator.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Helix">The resonator.</param>
public sealed record HelicalAnswer(HelicalQuestion Question, HelicalResonator Helix) : CoilAnswer;

/// <summary>A coaxial resonator.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="Line">The resonator.</param>
public sealed record CoaxialAnswer(CoaxialQuestion Question, CoaxialResonator Line) : CoilAnswer;
