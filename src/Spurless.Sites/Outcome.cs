using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;

namespace Spurless.Sites;

/// <summary>
/// What a service says to a question: an answer, or why there is none. Input that cannot be answered is a value, not an exception.
/// </summary>
/// <typeparam name="TAnswer">The answer.</typeparam>
public sealed record Outcome<TAnswer>
    where TAnswer : class
{
    internal Outcome()
    {
    }

    /// <summary>The answer; null where there is none.</summary>
    public TAnswer? Answer { get; private init; }

    /// <summary>
    /// What is wrong with the circuit that was asked about, each at parts of it; empty where it is something else or nothing.
    /// </summary>
    public IReadOnlyList<CircuitFault> Faults { get; internal init; } = [];

    /// <summary>Why what was asked cannot be had; null where it can, or where the circuit is at fault.</summary>
    public Refusal? Refusal { get; private init; }

    /// <summary>The first that is wrong on one line; empty where there is an answer.</summary>
    public string Problem => Refusal?.ToString() ?? (Faults.Count > 0 ? Faults[0].ToString() : "");

    /// <summary>An outcome with an answer.</summary>
    public static implicit operator Outcome<TAnswer>(TAnswer answer) => new() { Answer = answer };

    /// <summary>An outcome without one.</summary>
    public static implicit operator Outcome<TAnswer>(Refusal refusal) => new() { Refusal = refusal };

    /// <summary>An outcome without one, for a fault of the circuit.</summary>
    public static implicit operator Outcome<TAnswer>(CircuitFault fault) => new() { Faults = [fault] };
}

/// <summary>Makes outcomes of what no single value stands for.</summary>
public static class Outcome
{
    /// <summary>An outcome without an answer, for all faults of the circuit.</summary>
    /// <typeparam name="TAnswer">The answer that there is not.</typeparam>
    /// <param name="faults">The faults, one or more.</param>
    public static Outcome<TAnswer> Of<TAnswer>(IReadOnlyList<CircuitFault> faults)
        where TAnswer : class => new() { Faults = faults };
}
