namespace Spurless.Workbench.Desk;

/// <summary>What a stage of the desk is, and so by which symbol it is drawn.</summary>
public enum DeskStageKind
{
    /// <summary>A cable.</summary>
    Feedline,

    /// <summary>A circuit or a measured two-port.</summary>
    Filter,

    /// <summary>An attenuator.</summary>
    Attenuator,

    /// <summary>An amplifier.</summary>
    Amplifier,

    /// <summary>The receiver itself.</summary>
    Receiver,

    /// <summary>Another's transmitter in which mixing happens.</summary>
    Transmitter,
}

/// <summary>One stage between the antenna and the receiver, or a transmitter, with what can be changed at it.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Name">Its name as the tables give it.</param>
/// <param name="Note">What else there is to say of it, such as that it does not stand in the chain yet; may be empty.</param>
/// <param name="Switch">Whether it is in the chain; null where it cannot be taken out.</param>
/// <param name="Items">Its numbers, the one that is asked for most first; may be empty.</param>
public sealed record DeskStage(DeskStageKind Kind, string Name, string Note, DeskItem? Switch, IReadOnlyList<DeskItem> Items);

/// <summary>A value that has a name of its own: 'double isolator, 55 dB'.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Value">The value.</param>
public sealed record DeskPreset(string Name, double Value);
