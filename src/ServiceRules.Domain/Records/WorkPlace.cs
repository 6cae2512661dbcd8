namespace ServiceRules.Domain.Records;

/// <summary>Where the units were while they were worked on.</summary>
public enum WorkPlace
{
    /// <summary>On the machine: its energy sources matter.</summary>
    OnMachine,

    /// <summary>Off the machine: lifting, the free reel and the bench matter.</summary>
    OnBench,
}
