using ServiceRules.Domain.Site;

namespace ServiceRules.Host.Filing;

/// <summary>A lock or a person of a job at another machine.</summary>
/// <param name="Lock">The lock or tag; left out where it is a person.</param>
/// <param name="Person">The person; left out where it is a lock.</param>
/// <param name="Machine">At which machine.</param>
/// <param name="From">Since when.</param>
/// <param name="Until">Until when; left out where no end is shown.</param>
internal sealed record ToldElsewhere(string? Lock, string? Person, string Machine, string From, string? Until)
{
    public static ToldElsewhere Of(Elsewhere elsewhere) =>
        new(
            (elsewhere as LockElsewhere)?.Lock.Text,
            (elsewhere as PersonElsewhere)?.Person.Text,
            elsewhere.Machine.Text,
            elsewhere.From.Text,
            elsewhere.Until?.Text
        );
}
