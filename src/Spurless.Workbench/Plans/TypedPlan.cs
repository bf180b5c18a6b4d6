namespace Spurless.Workbench.Plans;

/// <summary>What is typed on the page of quiet channels; null or empty where nothing is.</summary>
/// <param name="Receiver">Name of the receiver that is moved; its first where there is none of that name.</param>
/// <param name="Band">The lowest and the highest channel: <c>145.0 MHz-145.8 MHz</c>.</param>
/// <param name="Raster">From one channel to the next: <c>12.5 kHz</c>.</param>
/// <param name="Shift">Transmit less receive frequency: <c>-600 kHz</c>.</param>
/// <param name="Count">How many channels are sought that are quiet side by side.</param>
/// <param name="BandPlan">A band plan's name within the folder.</param>
public sealed record TypedPlan(string? Receiver, string? Band, string? Raster, string? Shift, string? Count, string? BandPlan);
