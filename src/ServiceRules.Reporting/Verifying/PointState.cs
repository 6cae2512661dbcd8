namespace ServiceRules.Reporting.Verifying;

public enum PointState
{
    Passed,
    Failed,
    NotReached,
}
