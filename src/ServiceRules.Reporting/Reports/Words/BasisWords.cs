using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>What something rests on: its kind, source and clause.</summary>
public static class BasisWords
{
    public static string Of(Basis basis) =>
        string.Join(
            ", ",
            new[] { ReportWords.Of(basis.Kind), basis.Source, basis.Clause }.Where(part => part is not null)
        );
}
