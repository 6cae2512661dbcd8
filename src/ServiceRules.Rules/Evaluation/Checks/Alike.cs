namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What is to be told of several places alike is told once, with the places named.</summary>
internal static class Alike
{
    public static IEnumerable<string> Once(IEnumerable<(string Where, string Told)> notices) =>
        notices
            .GroupBy(each => each.Told, StringComparer.Ordinal)
            .Select(alike =>
                $"{Wording.Listed([.. alike.Select(each => each.Where).Distinct(StringComparer.Ordinal)])}: {alike.Key}"
            );
}
