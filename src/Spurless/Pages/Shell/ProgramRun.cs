namespace Spurless.Pages.Shell;

/// <summary>One run of the program. A page that finds another one behind its address loads itself anew.</summary>
/// <param name="Id">A number without meaning.</param>
internal sealed record ProgramRun(string Id);
