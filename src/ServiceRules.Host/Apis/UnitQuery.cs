using System.ComponentModel;
using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Apis;

/// <summary>Which units are asked for.</summary>
internal sealed record UnitQuery : RowQuery
{
    [Description("only: each unit as it stood at its last visit")]
    public string? Latest { get; init; }

    protected override IEnumerable<string> Names => [.. base.Names, "latest"];

    /// <summary>A disposition that is named is that of the unit, not of its job.</summary>
    public UnitFilter UnitsFor(Caller caller) =>
        new()
        {
            Of = FilterFor(caller) with { Unit = null, Disposition = null },
            Unit = Unit,
            Disposition = Disposition,
            LatestOnly = Latest is not null,
        };

    protected override IEnumerable<IResult?> Faults() =>
        [.. base.Faults(), Among("latest", Latest, ["only"])];
}
