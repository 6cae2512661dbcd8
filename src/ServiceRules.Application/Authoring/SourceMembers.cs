using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;

namespace ServiceRules.Application.Authoring;

/// <summary>The members of a source of energy, set by name from what is given of them.</summary>
public static class SourceMembers
{
    private const int MinutesMost = 24 * 60;

    private static readonly ImmutableArray<string> All =
    [
        "title",
        "isolator",
        "lockable",
        "stored",
        "release",
        "proof",
        "recheckMinutes",
        "recheckLimit",
        "reaccumulates",
    ];

    /// <summary>Their names.</summary>
    public static string Names { get; } = string.Join(", ", All);

    /// <summary>Sources with what is given of them, each change in the words of whoever gives it.</summary>
    /// <param name="standing">The sources to begin from.</param>
    /// <param name="given">What is given.</param>
    /// <param name="problems">What is wrong with it; empty: nothing.</param>
    public static ImmutableArray<EnergySource> With(
        ImmutableArray<EnergySource> standing,
        ImmutableArray<GivenSource> given,
        out ImmutableArray<string> problems
    )
    {
        var wrong = ImmutableArray.CreateBuilder<string>();
        var sources = standing.ToList();
        foreach (var one in given.GroupBy(each => each.Source, StringComparer.Ordinal))
        {
            var at = sources.FindIndex(source => source.Id.Text == one.Key);
            var source =
                at >= 0
                    ? sources[at]
                    : new EnergySource
                    {
                        Id = new(one.Key),
                        Title = "",
                        Proof = "",
                    };
            var isExample = MachineExamples.IsTakenOver(source.Proof);
            foreach (var (_, member, text) in one)
            {
                (source, var problem) = With(source, member, text);
                if (problem is not null)
                {
                    wrong.Add($"--source {one.Key} {member}: {problem}");
                }
            }

            wrong.AddRange(
                Missing(source)
                    .Select(member =>
                        $"--source {one.Key}: its {member} is not given; accepted: `--source \"{one.Key} {member}=...\"`, in the words of the machine's own manual"
                    )
            );
            source = StillTakenOver(source, one, isExample);
            if (at >= 0)
            {
                sources[at] = source;
            }
            else
            {
                sources.Add(source);
            }
        }

        problems = wrong.ToImmutable();
        return [.. sources];
    }

    private static IEnumerable<string> Missing(EnergySource source)
    {
        if (source.Title.Length == 0)
        {
            yield return "title";
        }

        if (source.Proof.Length == 0)
        {
            yield return "proof";
        }

        if (source is { Stored: true, Release: null })
        {
            yield return "release";
        }
    }

    // How it is proven dead rests on the device that isolates it: where that is the example's, so is the proof.
    private static EnergySource StillTakenOver(
        EnergySource source,
        IEnumerable<GivenSource> given,
        bool isExample
    ) =>
        isExample && source.Isolator is not null && given.All(one => one.Member != "isolator")
            ? source with
            {
                Proof = MachineExamples.Marked(source.Proof),
            }
            : source;

    private static (EnergySource Source, string? Problem) With(
        EnergySource source,
        string member,
        string text
    ) =>
        member switch
        {
            "title" => (source with { Title = text }, null),
            "isolator" => (source with { Isolator = text == "none" ? null : text }, null),
            "release" => (source with { Release = text }, null),
            "proof" => (source with { Proof = text }, null),
            "lockable" => Flag(source, text, flag => source with { Lockable = flag }),
            "stored" => Flag(source, text, flag => source with { Stored = flag }),
            "reaccumulates" => Flag(source, text, flag => source with { Reaccumulates = flag }),
            "recheckMinutes" => int.TryParse(
                text,
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var minutes
            ) && minutes is > 0 and <= MinutesMost
                ? (source with { RecheckMinutes = minutes }, null)
                : (source, $"`{text}` is no number of minutes; accepted: 1 to {MinutesMost}"),
            "recheckLimit" => Pressure.Parse(text).TryGet(out var limit, out var failure)
                ? (source with { RecheckLimit = limit }, null)
                : (source, failure.ToString()),
            _ => (source, $"a source has no such member; accepted: {Names}"),
        };

    private static (EnergySource Source, string? Problem) Flag(
        EnergySource source,
        string text,
        Func<bool, EnergySource> with
    ) =>
        text switch
        {
            "yes" => (with(true), null),
            "no" => (with(false), null),
            _ => (source, $"`{text}` is neither; accepted: yes or no"),
        };
}
