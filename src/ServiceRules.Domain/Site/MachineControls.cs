namespace ServiceRules.Domain.Site;

/// <summary>Which make-safe controls the machine has; a step for a control it lacks is not asked for.</summary>
public sealed record MachineControls(bool Key, bool ParkingBrake, bool LoweringUnits, bool ReelDrive);
