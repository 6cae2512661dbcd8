using System.Collections.Immutable;

namespace ServiceRules.Application.Authoring;

/// <summary>What came of writing something into a folder of rules: all of it stands there, or nothing was touched.</summary>
public abstract record AuthoringOutcome
{
    private AuthoringOutcome() { }

    /// <summary>All of it stands in the folder, and the folder is sound with it.</summary>
    /// <param name="Files">The files written, relative to the folder.</param>
    /// <param name="Notices">What the check has to say of them.</param>
    public sealed record Written(ImmutableArray<string> Files, ImmutableArray<string> Notices)
        : AuthoringOutcome;

    /// <summary>Nothing was written.</summary>
    /// <param name="Lines">Everything that stands against it.</param>
    public sealed record Refused(ImmutableArray<string> Lines) : AuthoringOutcome;
}
