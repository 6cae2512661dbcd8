using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What the source of an entry is called.</summary>
internal static class SourceNames
{
    /// <summary>By its plain name where the registers have one.</summary>
    public static string Of(DutyFrame duty, SourceReference? source) =>
        source switch
        {
            SourceReference.One { Source: var id } => duty.Sources.FirstOrDefault(known =>
                known.Source.Id == id
            )
                is { } known
                ? TimelineWords.Named(known.Source)
                : id.Text.Replace('_', ' '),
            SourceReference.GroupBox => "the group box",
            SourceReference.All => "every source",
            _ => "a source that it does not name",
        };
}
