using System.Collections.Immutable;
using ServiceRules.Formats.Json.Source;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Library;

/// <summary>What a folder of rules came to: rules and registers, what is wrong with them, and the cases beside them.</summary>
public sealed record LoadedRules
{
    /// <summary>The folder.</summary>
    public required string Folder { get; init; }

    /// <summary>Packs and sheets, as far as they could be read.</summary>
    public required RuleBook Book { get; init; }

    /// <summary>The same and the registers, each part with the file that it stands in.</summary>
    public required RuleLibrary Library { get; init; }

    /// <summary>The site's registers, or null when there is no site or it could not be read.</summary>
    public required SiteRegisters? Site { get; init; }

    /// <summary>Everything wrong or odd, by file and place.</summary>
    public required ImmutableArray<Diagnostic> Diagnostics { get; init; }

    /// <summary>The cases beside the rules.</summary>
    public required ImmutableArray<PlacedCase> Cases { get; init; }

    /// <summary>Where a JSON pointer into a file of the folder stands in its text.</summary>
    internal Func<string, string, SourcePosition> PositionOf { get; init; } = (_, _) => new(1, 1);

    /// <summary>Where a part of a placed document stands in its text.</summary>
    /// <param name="placed">The document, or a part of one.</param>
    /// <param name="pointer">The part, seen from there.</param>
    internal RulePlace PlaceOf<T>(Placed<T> placed, string pointer)
        where T : notnull
    {
        SourcePosition at = PositionOf(placed.File, placed.Pointer + pointer);
        return new(placed.File, placed.Pointer + pointer, at.Line, at.Column);
    }

    /// <summary>Whether these rules may judge: nothing is wrong with them.</summary>
    public bool IsSound => Diagnostics.All(remark => remark.Level is not DiagnosticLevel.Error);
}
