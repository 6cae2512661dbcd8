using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Rules.Checking;

/// <summary>Says of a name that is not known which one was probably meant.</summary>
/// <param name="known">The names that there are.</param>
/// <param name="otherwise">What would be right, where none is near.</param>
internal sealed class MeantName(IReadOnlyCollection<string> known, string otherwise)
{
    // Each search compares with every name; whoever has more slips than this mends them in several sittings.
    private const int Searches = 100;

    private int searched;

    public string Of(string found) =>
        searched++ < Searches && NearestName.Of(found, known) is { } nearest
            ? $"did you mean `{nearest}`? {otherwise}"
            : otherwise;
}
