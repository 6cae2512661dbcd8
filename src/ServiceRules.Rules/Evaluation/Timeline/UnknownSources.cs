using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Entries on a source that the machine is not known to have: a slip of the pen as a rule, by which a lock hangs nowhere. Where
/// neither register nor procedure tells the sources of the machine, nothing can be said.
/// </summary>
internal static class UnknownSources
{
    private static readonly string[] NoSourceOfTheirOwn = ["all", "group_box"];

    /// <summary>One doubt for every such entry.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading)
    {
        var known = EffectiveSources.Of(reading);
        if (!known.Any(source => source.IsDescribed))
        {
            yield break;
        }

        var names = known.Select(source => source.Source.Id.Text).ToList();
        foreach (var entry in reading.Events)
        {
            if (
                entry.Event.Source is SourceReference.One { Source: var named }
                && !names.Contains(named.Text)
            )
            {
                yield return new(
                    CredibilityOf.UnknownSources,
                    entry.Pointer(),
                    $"{EventWords.Done(entry.Event.Kind)} at {entry.Event.At.Text} names the source `{named}`, which neither the register "
                        + $"of machines nor the procedure has; {Meant(named.Text, names)}known are {string.Join(", ", names)}",
                    Weakens: false
                );
            }
        }
    }

    private static string Meant(string found, IEnumerable<string> names) =>
        NearestName.Of(found, [.. names, .. NoSourceOfTheirOwn]) is { } nearest
            ? $"did you mean `{nearest}`? "
            : string.Empty;
}
