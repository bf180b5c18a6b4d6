using Spurless.Circuits.Coils;

namespace Spurless.Sites.Coils;

/// <summary>A coil or resonator from its dimensions, or the other way round: one question for each kind.</summary>
public abstract record CoilQuestion
{
    private protected CoilQuestion()
    {
    }
}

/// <summary>A single-layer air coil: its inductance, Q and self-resonance, or its turns.</summary>
public sealed record AirCoilQuestion : CoilQuestion
{
    /// <summary>Turns, above 0; null where <see cref="InductanceH"/> is given.</summary>
    public double? Turns { get; init; }

    /// <summary>Wanted inductance without leads in henries, above 0; null where <see cref="Turns"/> is given.</summary>
    public double? InductanceH { get; init; }

    /// <summary>Diameter in metres, wire centre to wire centre; null where <see cref="FormerM"/> is given.</summary>
    public double? DiameterM { get; init; }

    /// <summary>Diameter of the former in metres; null where <see cref="DiameterM"/> is given.</summary>
    public double? FormerM { get; init; }

    /// <summary>Length in metres: turns times pitch.</summary>
    public required double LengthM { get; init; }

    /// <summary>Diameter of the bare wire in metres.</summary>
    public required double WireM { get; init; }

    /// <summary>Length of the lead at each end in metres.</summary>
    public double LeadM { get; init; }

    /// <summary>Frequency for Q in hertz; null for no Q.</summary>
    public double? FrequencyHz { get; init; }

    /// <summary>Metal of the wire.</summary>
    public Conductor Metal { get; init; } = Conductor.Copper;
}

/// <summary>A winding on a ring core: its inductance, or its turns.</summary>
public sealed record RingCoreQuestion : CoilQuestion
{
    /// <summary>A_L, inductance a turn squared, in henries, above 0.</summary>
    public required double InductancePerTurnSquaredH { get; init; }

    /// <summary>Turns, above 0; null where <see cref="InductanceH"/> is given.</summary>
    public double? Turns { get; init; }

    /// <summary>Wanted inductance in henries, above 0; null where <see cref="Turns"/> is given.</summary>
    public double? InductanceH { get; init; }
}

/// <summary>A helical resonator in a shield.</summary>
public sealed record HelicalQuestion : CoilQuestion
{
    /// <summary>Frequency in hertz, above 0.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Inner side or diameter of the shield in metres, above 0.</summary>
    public required double ShieldM { get; init; }

    /// <summary>Shape of the shield.</summary>
    public ShieldShape Shape { get; init; } = ShieldShape.Square;
}

/// <summary>A coaxial quarter-wave resonator, shortened by a capacitor at its open end.</summary>
public sealed record CoaxialQuestion : CoilQuestion
{
    /// <summary>Frequency in hertz, above 0.</summary>
    public required double FrequencyHz { get; init; }

    /// <summary>Outer diameter of the inner conductor in metres, above 0.</summary>
    public required double InnerM { get; init; }

    /// <summary>Inner diameter of the outer conductor in metres, above the inner one.</summary>
    public required double OuterM { get; init; }

    /// <summary>Capacitance at the open end in farads; 0 for a full quarter wave.</summary>
    public double EndF { get; init; }

    /// <summary>Metal of the conductors.</summary>
    public Conductor Metal { get; init; } = Conductor.Copper;
}
