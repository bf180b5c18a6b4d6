namespace Spurless.CommandLine;

/// <summary>The statuses a command ends with, as docs/commands.md promises them.</summary>
internal static class ExitStatus
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>The input is at fault; standard error says where.</summary>
    public const int Input = 1;

    /// <summary>The command line is at fault.</summary>
    public const int Usage = 2;

    /// <summary>The program itself failed.</summary>
    public const int Failed = 3;

    /// <summary>Stopped by the user.</summary>
    public const int Cancelled = 130;
}
