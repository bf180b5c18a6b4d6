namespace Spurless.Circuits.Solving;

/// <summary>What is wrong with a netlist or its analysis.</summary>
public enum CircuitFaultKind
{
    /// <summary>Two parts have one name.</summary>
    DuplicateName,

    /// <summary>A part has both ends on one node.</summary>
    BothEndsOnOneNode,

    /// <summary>A value is outside what the part allows.</summary>
    BadValue,

    /// <summary>A node that only one part touches, or parts that nothing ties to ground or a port.</summary>
    FloatingNode,

    /// <summary>A port has no part, or no way leads from one port to the other.</summary>
    PortsNotConnected,

    /// <summary>A port is shorted to ground.</summary>
    ShortedPort,

    /// <summary>A coupling names something that is no inductor, or the same pair twice.</summary>
    BadCoupling,

    /// <summary>Coupling coefficients that no windings can have.</summary>
    ImpossibleCoupling,

    /// <summary>A value is unknown.</summary>
    UnknownValue,

    /// <summary>A frequency at which a two-port block is not defined, or which is not above 0.</summary>
    FrequencyOutOfRange,

    /// <summary>The network has no one solution at a frequency.</summary>
    Singular,
}

/// <summary>One thing that is wrong with a circuit.</summary>
/// <param name="Kind">What kind of fault.</param>
/// <param name="Parts">Names of the parts involved, in the order of the file; may be empty.</param>
/// <param name="What">What was found, without a full stop.</param>
/// <param name="Remedy">What to do instead, without a full stop.</param>
public sealed record CircuitFault(CircuitFaultKind Kind, IReadOnlyList<string> Parts, string What, string Remedy)
{
    /// <summary>The fault on one line.</summary>
    public override string ToString() => $"{What}; {Remedy}";
}

/// <summary>A circuit could not be analysed, where the caller used the form that does not return faults as values.</summary>
public sealed class CircuitException : Exception
{
    /// <summary>Makes the exception from a fault.</summary>
    public CircuitException(CircuitFault fault)
        : base(fault.ToString()) => Fault = fault;

    /// <summary>What is wrong.</summary>
    public CircuitFault Fault { get; }
}
