using ServiceRules.Formats.Cases;

namespace ServiceRules.Application.Library;

/// <summary>A case with where it stands and where its fixtures are.</summary>
/// <param name="Case">The case.</param>
/// <param name="File">Its file, relative to the folder of rules.</param>
/// <param name="Pointer">Where in the file.</param>
/// <param name="Line">The line, counted from 1.</param>
/// <param name="Column">The column, counted from 1.</param>
/// <param name="Fixtures">The folder of its fixtures, relative to the folder of rules.</param>
public sealed record PlacedCase(
    RuleCase Case,
    string File,
    string Pointer,
    int Line,
    int Column,
    string Fixtures
);
