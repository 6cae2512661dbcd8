using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Cli.Printing;

/// <summary>What something rests on: its kind, source and clause.</summary>
internal static class BasisWords
{
    public static string Of(Basis basis) =>
        string.Join(
            ", ",
            new[] { ReportWords.Of(basis.Kind), basis.Source, basis.Clause }.Where(part => part is not null)
        );
}
