namespace ServiceRules.Reporting.Verifying;

/// <summary>Collects the points of one verification.</summary>
internal sealed class Checklist
{
    private readonly Dictionary<VerificationCheck, VerificationPoint> _points = [];

    /// <summary>Notes the check as failed when there is a fault, else as passed; tells whether it passed.</summary>
    public bool Note(VerificationCheck check, string? fault, string passed)
    {
        var state = fault is null ? PointState.Passed : PointState.Failed;
        _points[check] = new VerificationPoint(check, state, fault ?? passed);
        return fault is null;
    }

    public void Note(VerificationCheck check, PointState state, string told) =>
        _points[check] = new VerificationPoint(check, state, told);

    /// <summary>All points in order; those never noted were not reached.</summary>
    public IReadOnlyList<VerificationPoint> Points() =>
        [
            .. Enum.GetValues<VerificationCheck>()
                .Select(check =>
                    _points.GetValueOrDefault(check)
                    ?? new VerificationPoint(
                        check,
                        PointState.NotReached,
                        "not reached after an earlier failure"
                    )
                ),
        ];
}
